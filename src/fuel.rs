//! What a fuel is: selling unit, energy content and CO2, read from `data/fuels.csv`.
//!
//! Knows no machine and no price. Start at [`Fuels`].

use crate::problem::Problem;
use crate::units::{GALLONS_PER_LITRE, KILOGRAMS_PER_SHORT_TON, UnitSystem, btu_to_kwh};
use serde::Deserialize;
use std::sync::LazyLock;

/// A fuel's place in the catalogue.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct FuelId(usize);

impl FuelId {
    /// Electricity is always the first.
    pub const ELECTRICITY: Self = Self(0);

    /// The place in the catalogue, from 0.
    pub fn index(self) -> usize {
        self.0
    }
}

/// One fuel.
#[derive(Debug, Clone, PartialEq)]
pub struct Fuel {
    /// The word the job uses, for example `oil_no_2`.
    pub id: String,
    /// The word people use.
    pub name: String,
    /// Whether it comes through a meter, by wire or pipe; else by truck.
    pub metered: bool,
    /// The unit it is sold in: kWh, gal, L, therm, cord, short ton, tonne.
    pub selling_unit: String,
    /// Energy in one selling unit, kWh by the higher heating value.
    pub kwh_per_unit: f64,
    /// Where the energy content comes from.
    pub energy_source: String,
    /// What burning a kWh of it sends into the air, where published values are at hand.
    pub burning: Option<Burning>,
}

/// What goes into the air for each kWh (HHV) that is burned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Burning {
    /// CO2 (kg/kWh), wood's own left out.
    pub co2_kg: f64,
    /// The same with methane and nitrous oxide, as much CO2 as warms alike over 100 years (kg/kWh).
    pub co2e_kg: f64,
    /// CO2 of wood (kg/kWh).
    pub biogenic_co2_kg: f64,
}

/// A kilogram of methane warms over 100 years as so many of CO2: the fifth IPCC assessment, which 40 CFR 98
/// Table A-1 took over.
pub const GWP_CH4: f64 = 28.0;
/// The same of nitrous oxide.
pub const GWP_N2O: f64 = 265.0;

/// The word the job uses for a fuel that people call so, where that can mean one alone.
///
/// ```
/// assert_eq!(winterledger::fuel::meant_by("LP gas"), Some("propane"));
/// assert_eq!(winterledger::fuel::meant_by("gas"), None);
/// ```
pub fn meant_by(word: &str) -> Option<&'static str> {
    let letters = word.chars().filter(|c| c.is_alphanumeric());
    match letters.collect::<String>().to_lowercase().as_str() {
        "lp" | "lpg" | "lpgas" | "propan" | "propane" | "propanegas" | "bottledgas" | "tankgas" => {
            Some("propane")
        }
        "ng" | "natgas" | "naturalgas" => Some("natural_gas"),
        "oil" | "fueloil" | "heatingoil" | "no2" | "no2oil" | "oilno2" => Some("oil_no_2"),
        "wood" | "firewood" | "cordwood" => Some("cord_wood"),
        "pellet" | "pellets" | "woodpellets" => Some("pellets"),
        "kerosine" | "kerosene" => Some("kerosene"),
        "elec" | "electric" | "electricity" | "electrical" | "power" => Some("electricity"),
        _ => None,
    }
}

/// Whether a word means natural gas to some and propane to others.
///
/// ```
/// assert!(winterledger::fuel::is_some_gas("Gas"));
/// assert!(!winterledger::fuel::is_some_gas("LP gas"));
/// ```
pub fn is_some_gas(word: &str) -> bool {
    word.trim().eq_ignore_ascii_case("gas")
}

impl Fuel {
    /// Selling units in one `unit`, or `None` if the fuel is not sold by it.
    ///
    /// ```
    /// let fuels = winterledger::fuel::Fuels::built_in().unwrap();
    /// let propane = fuels.get(fuels.find("propane").unwrap()).unwrap();
    /// assert_eq!(propane.units_in("gal"), Some(1.0));
    /// assert_eq!(propane.units_in("gallons"), Some(1.0));
    /// assert_eq!(propane.units_in("cord"), None);
    /// let pellets = fuels.get(fuels.find("pellets").unwrap()).unwrap();
    /// // A short ton has 907.18474 kg.
    /// assert!((pellets.units_in("t").unwrap() - 1000.0 / 907.18474).abs() < 1e-9);
    /// ```
    pub fn units_in(&self, unit: &str) -> Option<f64> {
        let (own, unit) = (self.selling_unit.as_str(), unit.trim());
        let of_kind = |amount: fn(&str) -> Option<f64>| Some(amount(unit)? / amount(own)?);
        match unit {
            same if same.eq_ignore_ascii_case(own) => Some(1.0),
            "kWh" | "kwh" => Some(1.0 / self.kwh_per_unit),
            "MWh" => Some(1000.0 / self.kwh_per_unit),
            "MMBtu" => Some(btu_to_kwh(1.0e6) / self.kwh_per_unit),
            // A ton alone is the one that the fuel is sold by.
            "ton" if own == "short ton" => Some(1.0),
            "therm" if own == "kWh" && self.id != "electricity" => Some(btu_to_kwh(1.0e5)),
            _ => {
                let one = |unit: &str| self.units_in(unit);
                of_kind(gallons)
                    .or_else(|| of_kind(kilograms))
                    .or_else(|| unit.strip_suffix('s').and_then(one))
            }
        }
    }

    /// What to write instead of a unit that [`Self::units_in`] does not know.
    pub fn unit_help(&self, unit: &str) -> String {
        let likeness = |known: &&str| strsim::jaro_winkler(&unit.to_lowercase(), &known.to_lowercase());
        let known = UNITS.into_iter().filter(|known| self.units_in(known).is_some());
        if self.id == "cord_wood" && (kilograms(unit).is_some() || unit == "ton") {
            return WOOD_BY_WEIGHT.into();
        }
        if self.id == "propane" && kilograms(unit).is_some() {
            return PROPANE_BY_WEIGHT.into();
        }
        if gallons(&self.selling_unit).is_some() && kilograms(unit).is_some() {
            return format!("Give it by the {}", self.selling_unit);
        }
        let near = known.max_by(|a, b| likeness(a).total_cmp(&likeness(b)));
        match near.filter(|near| likeness(near) >= ALIKE) {
            Some(near) => format!("Did you mean {near}?"),
            None => format!("Give it by the {}", self.selling_unit),
        }
    }

    /// The selling unit as a sentence has it: `gallon`, `kWh`.
    pub fn unit_word(&self) -> &str {
        match self.selling_unit.as_str() {
            "gal" => "gallon",
            "L" => "litre",
            "short ton" => "ton",
            own => own,
        }
    }

    /// The fuel, counted in another unit; as it is if it is not sold by that.
    fn counted_in(self, unit: &str) -> Self {
        let Some(own_units) = self.units_in(unit) else { return self };
        Self { selling_unit: unit.to_owned(), kwh_per_unit: self.kwh_per_unit * own_units, ..self }
    }
}

/// Wood and its residuals, dry: 17.48 MMBtu a short ton (40 CFR 98 Table C-1); of wood that is a fifth water so much
/// less, 13.98. How wet it is nobody says with the price.
const WOOD_BY_WEIGHT: &str = "Of a weight, how wet the wood is decides. Give it by the cord, or by the MMBtu: a \
                              short ton has 17.48 of them dry and 13.98 with 20 % water (a tonne 1.1023 times that)";
/// NFPA 58 has 4.24 lb a gallon at 60 °F (from memory); 4.24 × 0.45359237 = 1.92 kg.
const PROPANE_BY_WEIGHT: &str = "It is counted by the gal, which weighs 4.24 lb (1.92 kg) at 60 °F: multiply a price for a \
                                 lb by that, divide an amount in lb by it. Of a tank, take the water capacity from its plate";
/// Units that may have been meant.
const UNITS: [&str; 11] =
    ["kWh", "MWh", "MMBtu", "therm", "gal", "L", "kg", "tonne", "short ton", "lb", "cord"];
/// Units less alike (Jaro–Winkler, 0 to 1) than this are not suggested.
const ALIKE: f64 = 0.85;

/// US gallons in a measure of liquids.
fn gallons(unit: &str) -> Option<f64> {
    match unit {
        "gal" | "gallon" => Some(1.0),
        "L" | "l" | "litre" | "liter" => Some(GALLONS_PER_LITRE),
        _ => None,
    }
}

/// Kilograms in a measure of mass.
fn kilograms(unit: &str) -> Option<f64> {
    match unit {
        "kg" => Some(1.0),
        "tonne" | "t" => Some(1000.0),
        "short ton" => Some(KILOGRAMS_PER_SHORT_TON),
        "lb" => Some(KILOGRAMS_PER_SHORT_TON / 2000.0),
        _ => None,
    }
}

/// The catalogue of fuels.
#[derive(Debug, Clone, PartialEq)]
pub struct Fuels(Vec<Fuel>);

#[derive(Deserialize)]
struct Row {
    id: String,
    name: String,
    metered: bool,
    selling_unit: String,
    btu_per_unit: f64,
    energy_source: String,
    co2_kg_per_mmbtu: Option<f64>,
    ch4_kg_per_mmbtu: Option<f64>,
    n2o_kg_per_mmbtu: Option<f64>,
    biogenic_co2_kg_per_mmbtu: Option<f64>,
}

impl Fuels {
    /// The catalogue that comes with the program, `data/fuels.csv`.
    ///
    /// # Errors
    /// A line of the catalogue that cannot be read; that is a defect of the program's own data.
    pub fn built_in() -> Result<Self, Problem> {
        static READ: LazyLock<Result<Fuels, Problem>> =
            LazyLock::new(|| Fuels::read(include_str!("../data/fuels.csv")));
        READ.clone()
    }

    /// Reads a catalogue; the first fuel must be electricity.
    ///
    /// # Errors
    /// The first line that cannot be read.
    pub fn read(text: &str) -> Result<Self, Problem> {
        let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
        let rows: Result<Vec<Row>, _> = reader.deserialize().collect();
        let rows = rows.map_err(|e| Problem::new(e.to_string()).in_file("fuels.csv"))?;
        if rows.first().is_none_or(|r| r.id != "electricity") {
            return Err(Problem::new("the first fuel is not electricity").in_file("fuels.csv"));
        }
        Ok(Self(rows.into_iter().map(Fuel::from).collect()))
    }

    /// The catalogue with the units that people buy by where these units are read: in SI liquids by the
    /// litre, pellets by the tonne, gas by the kWh.
    ///
    /// ```
    /// use winterledger::{fuel::Fuels, units::UnitSystem};
    /// let fuels = Fuels::built_in().unwrap().sold_in(UnitSystem::Si);
    /// let propane = fuels.get(fuels.find("propane").unwrap()).unwrap();
    /// assert_eq!(propane.unit_word(), "litre");
    /// // 26.80192 kWh a gallon of 3.785411784 L.
    /// assert!((propane.kwh_per_unit - 26.80192 / 3.785_411_784).abs() < 1e-5);
    /// ```
    pub fn sold_in(self, units: UnitSystem) -> Self {
        let sold = |fuel: Fuel| match (units, fuel.selling_unit.as_str()) {
            (UnitSystem::Si, "gal") => fuel.counted_in("L"),
            (UnitSystem::Si, "short ton") => fuel.counted_in("tonne"),
            (UnitSystem::Si, "therm") => fuel.counted_in("kWh"),
            _ => fuel,
        };
        Self(self.0.into_iter().map(sold).collect())
    }

    /// The fuel of that id.
    pub fn find(&self, id: &str) -> Option<FuelId> {
        self.0.iter().position(|f| f.id == id).map(FuelId)
    }

    /// The fuel at that place.
    pub fn get(&self, id: FuelId) -> Option<&Fuel> {
        self.0.get(id.0)
    }

    /// All fuels, in order.
    pub fn iter(&self) -> impl Iterator<Item = (FuelId, &Fuel)> {
        self.0.iter().enumerate().map(|(i, f)| (FuelId(i), f))
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        self.0.len()
    }
}

impl Row {
    fn burning(&self) -> Option<Burning> {
        let for_each_kwh = |kg: Option<f64>| kg.map(|kg| kg / btu_to_kwh(1.0e6));
        let co2_kg = for_each_kwh(self.co2_kg_per_mmbtu)?;
        let (ch4, n2o) = (for_each_kwh(self.ch4_kg_per_mmbtu)?, for_each_kwh(self.n2o_kg_per_mmbtu)?);
        let biogenic_co2_kg = for_each_kwh(self.biogenic_co2_kg_per_mmbtu)?;
        Some(Burning { co2_kg, co2e_kg: co2_kg + GWP_CH4 * ch4 + GWP_N2O * n2o, biogenic_co2_kg })
    }
}

impl From<Row> for Fuel {
    fn from(row: Row) -> Self {
        let burning = row.burning();
        Self {
            id: row.id,
            name: row.name,
            metered: row.metered,
            selling_unit: row.selling_unit,
            kwh_per_unit: btu_to_kwh(row.btu_per_unit),
            energy_source: row.energy_source,
            burning,
        }
    }
}

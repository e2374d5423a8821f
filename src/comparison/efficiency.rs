//! Coefficients of performance and labels of heat pumps and air conditioners that physics or the market hardly
//! allows: an EER typed for a COP, columns or rows exchanged, another rating in the label's place.
//!
//! Only remarks; each bound says where it comes from. Start at [`odd_efficiencies`].

use super::slip::Labels;
use crate::job::{
    DrawSection, EquipmentSection, Job, MachineSection, MapSection, PointSection, RowSection, Speed,
};
use crate::units::{Quantity, fahrenheit_to_celsius};

/// Share of Carnot's COP between the temperatures below that no house's machine comes to, its fans and compressor
/// being what they are: the best have about 0.5 (from memory), and the rest is room for rows of other conditions.
const OF_CARNOT: f64 = 0.7;
/// Air that warms a room at full output, °F, and at the least, when its coil is large for what it gives.
const WARM_AIR_F: [f64; 2] = [100.0, 90.0];
/// Air that cools a room, °F, and how much warmer than the outdoors (or the water) the heat must leave, °F: at full
/// output and at the least.
const COOL_AIR_F: [(f64, f64); 2] = [(55.0, 20.0), (65.0, 10.0)];
/// What pumps and fans leave of any lift: a judgement.
const MOST_OF_ALL: f64 = 20.0;
/// A COP that rises so much towards the harder row is of another row or column: maps are flat at most. Rounding and
/// a machine that is held back in mild weather explain a tenth (a judgement).
const HARDER_ROW: f64 = 1.10;
/// Where the milder row stands in frost, its COP has lost up to a fifth by melting it (a judgement; the standard's
/// own line has 0.90/0.985).
const HARDER_ROW_BESIDE_FROST: f64 = 1.25;
/// Outdoors, °F, in which frost is melted.
const FROST_F: (f64, f64) = (30.0, 42.0);
/// The least output is more efficient than the greatest, or little less where the fan is large for it; under so much
/// of it the two are of different rows (a judgement).
const LEAST_OVER_GREATEST: f64 = 0.6;

/// HSPF2 and SEER2, Btu/Wh, under which a label is asked about. One speed: machines of the 1980s that are kept have
/// an HSPF of about 6 and a SEER of about 8 (from memory), HSPF2 and SEER2 about 0.85 and 0.95 of that; US law asks
/// SEER 10 and HSPF 6.8 since 1992 (from memory).
const LEAST_LABELS_OF_ONE_SPEED: (f64, f64) = (5.0, 7.5);
/// The same of machines that turn down, which are younger. 10 CFR 430.32(c) since 2023: split heat pumps 7.5 and
/// 14.3, packaged ones 6.7 and 13.4, the least of all 11.7 in SEER2 (space-constrained) and 6.1 in HSPF2
/// (small ducts, from memory); a little below for those sold before.
const LEAST_LABELS: (f64, f64) = (6.0, 11.5);

/// An efficiency that hardly can be.
#[derive(Debug, Clone, PartialEq)]
pub enum OddEfficiency {
    /// A COP beyond what the temperatures allow.
    BeyondPhysics {
        /// Where it stands.
        at: CopAt,
        /// The COP.
        cop: f64,
        /// The most that is believed there.
        most: f64,
    },
    /// A COP better than that of a row of milder weather.
    BetterWhereHarder {
        /// The row of harder weather: colder in heating, hotter in cooling.
        at: CopAt,
        /// Its COP.
        cop: f64,
        /// The milder row's temperature, °C.
        mild_c: f64,
        /// The milder row's COP.
        mild_cop: f64,
    },
    /// A least output far less efficient than the greatest beside it.
    PoorLeast {
        /// Where it stands.
        at: CopAt,
        /// Its COP.
        cop: f64,
        /// That of the greatest output.
        greatest: f64,
    },
    /// A label worse than that of any machine sold.
    LowLabel {
        /// The machine's name.
        machine: String,
        /// The key in which it stands.
        key: &'static str,
        /// Btu/Wh.
        label: f64,
        /// The least that is known, Btu/Wh.
        least: f64,
        /// Whether the machine is known to turn down.
        turns_down: bool,
    },
}

/// Where a COP stands.
#[derive(Debug, Clone, PartialEq)]
pub struct CopAt {
    /// The machine's name.
    pub machine: String,
    /// Whether in rows of `cooling`.
    pub cooling: bool,
    /// Outdoors, or what enters from a ground loop, °C.
    pub at_c: f64,
    /// `least`, `rated` or `greatest`.
    pub column: &'static str,
}

/// At most one for the heating and one for the cooling rows of each machine, and one for each label.
pub fn odd_efficiencies(job: &Job) -> Vec<OddEfficiency> {
    job.equipment.iter().flat_map(of_machine).collect()
}

fn of_machine(machine: &EquipmentSection) -> Vec<OddEfficiency> {
    let name = machine.name.value.as_str();
    let (heating, cooling, on_air) = match &machine.kind.value {
        MachineSection::HeatPump(pump) => (
            typed_rows(&pump.heating),
            pump.cooling.as_ref().map(|rows| rows.value.as_slice()),
            pump.ground.is_none(),
        ),
        MachineSection::AirConditioner(cooler) => (None, typed_rows(&cooler.cooling), true),
        _ => return Vec::new(),
    };
    let odd = |rows: Option<&[RowSection]>, cooling| {
        rows.and_then(|rows| odd_cop(&Rows { name, cooling, on_air, rows }))
    };
    let found = [odd(heating, false), odd(cooling, true)].into_iter().flatten();
    found.chain(low_labels(machine)).collect()
}

fn typed_rows(map: &MapSection) -> Option<&[RowSection]> {
    if let MapSection::Rows(rows) = map { Some(&rows.value) } else { None }
}

/// Rows of one machine and use.
struct Rows<'a> {
    name: &'a str,
    cooling: bool,
    on_air: bool,
    rows: &'a [RowSection],
}

type Column = (&'static str, fn(&RowSection) -> Option<&PointSection>);

const COLUMNS: [Column; 3] = [
    ("greatest", |row| Some(&row.greatest)),
    ("rated", |row| row.rated.as_ref()),
    ("least", |row| row.least.as_ref()),
];

fn cop(point: &PointSection) -> f64 {
    match point.draw.value {
        DrawSection::Cop(cop) => cop,
        DrawSection::Power(power) => point.capacity.base() / power.base(),
    }
}

impl Rows<'_> {
    fn at(&self, row: &RowSection, column: &'static str) -> CopAt {
        CopAt { machine: self.name.to_owned(), cooling: self.cooling, at_c: row.outdoor.base(), column }
    }

    /// Temperature and COP of one column, the mildest row first.
    fn column(&self, of: fn(&RowSection) -> Option<&PointSection>) -> Vec<(&RowSection, f64)> {
        let mut rows: Vec<_> = self.rows.iter().filter_map(|row| Some((row, cop(of(row)?)))).collect();
        rows.sort_by(|(a, _), (b, _)| b.outdoor.base().total_cmp(&a.outdoor.base()));
        if self.cooling {
            rows.reverse();
        }
        rows
    }
}

/// The first thing that is odd about the COPs of some rows; the others are often of the same slip.
fn odd_cop(rows: &Rows<'_>) -> Option<OddEfficiency> {
    let [greatest, others @ ..] = &COLUMNS;
    let beyond = COLUMNS.iter().find_map(|column| beyond_physics(rows, *column));
    let of_greatest = || better_where_harder(rows, *greatest);
    let poor = || rows.rows.iter().find_map(|row| poor_least(rows, row));
    let of_others = || others.iter().find_map(|column| better_where_harder(rows, *column));
    beyond.or_else(of_greatest).or_else(poor).or_else(of_others)
}

fn beyond_physics(rows: &Rows<'_>, (column, of): Column) -> Option<OddEfficiency> {
    rows.column(of).into_iter().find_map(|(row, cop)| {
        let most = most_at(row.outdoor.base(), rows.cooling, column == "least");
        (cop > most).then(|| OddEfficiency::BeyondPhysics { at: rows.at(row, column), cop, most })
    })
}

/// The most that is believed of a COP, its source or sink at `at_c`.
///
/// ```
/// use winterledger::comparison::efficiency::most_at;
/// // Hand-worked, heating at 47 °F to 100 °F: 0.7·559.67/53; cooling at 95 °F, 115 °F out and 55 °F air: 0.7·514.67/60.
/// assert!((most_at(47.0 / 1.8 - 32.0 / 1.8, false, false) - 7.392).abs() < 1e-3);
/// assert!((most_at(95.0 / 1.8 - 32.0 / 1.8, true, false) - 6.004).abs() < 1e-3);
/// ```
pub fn most_at(at_c: f64, cooling: bool, least: bool) -> f64 {
    let place = usize::from(least);
    let kelvin = |fahrenheit: f64| fahrenheit_to_celsius(fahrenheit) + 273.15;
    let source_k = at_c + 273.15;
    let carnot = |wanted_k: f64, lift_k: f64| if lift_k > 0.0 { wanted_k / lift_k } else { f64::INFINITY };
    let most = if cooling {
        let (air_f, above_f) = COOL_AIR_F[place];
        carnot(kelvin(air_f), source_k + above_f / 1.8 - kelvin(air_f))
    } else {
        let air_k = kelvin(WARM_AIR_F[place]);
        carnot(air_k, air_k - source_k)
    };
    (OF_CARNOT * most).min(MOST_OF_ALL)
}

fn better_where_harder(rows: &Rows<'_>, (column, of): Column) -> Option<OddEfficiency> {
    rows.column(of).windows(2).find_map(|pair| {
        let [(mild, mild_cop), (hard, cop)] = pair else { return None };
        let mild_c = mild.outdoor.base();
        let (from_c, to_c) = (fahrenheit_to_celsius(FROST_F.0), fahrenheit_to_celsius(FROST_F.1));
        let frost = rows.on_air && !rows.cooling && (from_c..=to_c).contains(&mild_c);
        let most = if frost { HARDER_ROW_BESIDE_FROST } else { HARDER_ROW };
        let (at, mild_cop, cop) = (rows.at(hard, column), *mild_cop, *cop);
        (cop > most * mild_cop).then_some(OddEfficiency::BetterWhereHarder { at, cop, mild_c, mild_cop })
    })
}

fn poor_least(rows: &Rows<'_>, row: &RowSection) -> Option<OddEfficiency> {
    let (least, greatest) = (cop(row.least.as_ref()?), cop(&row.greatest));
    let at = rows.at(row, "least");
    (least < LEAST_OVER_GREATEST * greatest).then_some(OddEfficiency::PoorLeast { at, cop: least, greatest })
}

/// Labels worse than any.
fn low_labels(machine: &EquipmentSection) -> Vec<OddEfficiency> {
    let Some(labels) = Labels::of(machine) else { return Vec::new() };
    let by_rows =
        matches!(labels.map, MapSection::Rows(rows) if rows.value.iter().any(|row| row.least.is_some()));
    let turns_down = labels.turndown.is_some_and(|share| share < 1.0)
        || by_rows
        || labels.speed.is_some_and(|speed| speed != Speed::One);
    let least = if turns_down { LEAST_LABELS } else { LEAST_LABELS_OF_ONE_SPEED };
    let low = labels.beside(least).filter(|(_, label, least)| label < least).map(|(key, label, least)| {
        OddEfficiency::LowLabel { machine: machine.name.value.clone(), key, label, least, turns_down }
    });
    low.collect()
}

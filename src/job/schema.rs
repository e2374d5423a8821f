//! The JSON Schema of a job file, for editors that complete and check while it is typed.
//!
//! Says the form only: names that refer to each other, orders of rows and currencies are the
//! reader's to judge. Beside the readers, and a test holds both to the same keys. Start at [`text`].

// The fields are read by the schema's derivation, never by the program.
#![allow(dead_code)]

use super::schema_costs::{Cost, Economics, Incentive, Loan};
use super::schema_machines::Machine;
use super::schema_prices::FuelPrice;
use super::schema_supply::Supply;
use super::schema_values::{
    Airflow, Amount, Area, CalendarDay, Clock, Current, HeatCapacity, Height, Line, Money, Power,
    Temperature, TemperatureDifference, WaterUse, YearlyEnergy,
};
use super::schema_what_if::{Draws, Scenario, Vary};
use schemars::generate::SchemaSettings;
use schemars::transform::{Transform, transform_subschemas};
use schemars::{JsonSchema, Schema};
use std::collections::BTreeMap;

/// The schema as indented JSON with a line end.
///
/// # Errors
/// A value that JSON cannot hold; that would be a defect.
pub fn text() -> Result<String, serde_json::Error> {
    let settings = SchemaSettings::draft2020_12().with_transform(WithoutNull);
    let schema = settings.into_generator().into_root_schema_for::<JobFile>();
    serde_json::to_string_pretty(&schema).map(|text| text + "\n")
}

/// A key that may be left out cannot be null instead: TOML has no null.
#[derive(Debug, Clone)]
struct WithoutNull;

impl Transform for WithoutNull {
    fn transform(&mut self, schema: &mut Schema) {
        if let Some(types) = schema.get_mut("type")
            && let Some(one) = types.as_array().and_then(|list| list.iter().find(|t| *t != "null")).cloned()
        {
            *types = one;
        }
        if let Some(choices) = schema.get("anyOf").and_then(|list| list.as_array()).cloned() {
            let left: Vec<_> =
                choices.into_iter().filter(|c| c.get("type").is_none_or(|t| t != "null")).collect();
            match left.as_slice() {
                [one] => {
                    schema.remove("anyOf");
                    if let Some(reference) = one.get("$ref") {
                        schema.insert("$ref".into(), reference.clone());
                    }
                }
                _ => {
                    schema.insert("anyOf".into(), left.into());
                }
            }
        }
        transform_subschemas(self, schema);
    }
}

/// A job for winterledger: one house, the ways to heat it, and what energy costs there.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "winterledger job")]
struct JobFile {
    /// The form of this file: 1.
    #[schemars(range(min = 1, max = 1))]
    format: u32,
    /// What stands at the head of the report.
    job: Head,
    /// Where the house stands.
    site: Site,
    /// The house and its zones.
    house: House,
    /// Bills or delivery tickets of winters gone by, against which the need of the house is held.
    past_use: Option<PastUse>,
    /// What people use beside heating and cooling.
    household: Option<Household>,
    /// The machines.
    #[schemars(length(min = 1))]
    equipment: Vec<Machine>,
    /// Stores of fuels that come by truck; the first of a fuel serves options that name none.
    supply: Option<Vec<Supply>>,
    /// The ways to heat the house that are compared.
    #[schemars(length(min = 1))]
    option: Vec<Choice>,
    /// What each fuel costs; the key is the fuel: electricity, natural_gas, propane,
    /// oil_no_1, oil_no_2, kerosene, cord_wood, pellets.
    #[schemars(extend("minProperties" = 1))]
    prices: BTreeMap<String, FuelPrice>,
    /// Over which years and on which terms costs are set against each other.
    economics: Option<Economics>,
    /// What if: the same job with something changed.
    scenario: Option<Vec<Scenario>>,
    /// How winters are drawn by chance.
    draws: Option<Draws>,
    /// Inputs at a low and a high value, one at a time.
    vary: Option<Vec<Vary>>,
}

/// What stands at the head of the report.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct Head {
    /// The house, in a few words.
    title: Line,
    /// Anything worth saying under the title.
    note: Option<Line>,
    /// Who prepared it.
    prepared_by: Option<Line>,
    /// Their phone number.
    phone: Option<Line>,
    /// Their logo: a PNG or SVG file beside the job.
    logo: Option<Line>,
    /// For whom it is.
    customer: Option<Line>,
    /// The day on which it was made: 2026-03-15.
    date: Option<CalendarDay>,
    /// What is printed on; letter with US units and a4 with SI units without it.
    paper: Option<Paper>,
    /// The currency's sign; "$" without it.
    #[schemars(length(min = 1, max = 5))]
    currency: Option<String>,
    /// What is printed: °F, Btu/h and gallons, or °C, kW and litres; us without it.
    units: Option<Units>,
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
enum Paper {
    Letter,
    A4,
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
enum Units {
    Us,
    Si,
}

/// Where the house stands; exactly one of weather, weather_file and the monthly means.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("oneOf" = [
    {"required": ["weather"]},
    {"required": ["weather_file"]},
    {"required": ["monthly_highs", "monthly_lows", "heating_99"]}
]))]
struct Site {
    /// The place, in a few words.
    name: Line,
    /// A built-in place, such as "il-chicago"; `winterledger weather` lists them.
    weather: Option<Line>,
    /// A weather file, or several that make one record; paths count from this file's folder.
    weather_file: Option<Files>,
    /// The layout of the weather file; looked for without it.
    weather_format: Option<WeatherFormat>,
    /// What fills hours without a temperature; a line, up to six hours, without it.
    weather_gaps: Option<WeatherGaps>,
    /// The clock of the weather file's dates, where it does not say it itself.
    weather_clock: Option<WeatherClock>,
    /// Of a record of several years, the year of the July with which the twelve months begin that are
    /// run; the latest complete ones without it.
    #[schemars(range(min = 1850, max = 2200))]
    weather_year: Option<u32>,
    /// How much warmer the house stands than the weather station, such as "-3.5 degF"; added to every
    /// hour.
    site_offset: Option<TemperatureDifference>,
    /// With no file at hand: the mean daily maximum of each month, January first.
    monthly_highs: Option<[Temperature; 12]>,
    /// The mean daily minimum of each month, January first.
    monthly_lows: Option<[Temperature; 12]>,
    /// The mean of all hours of each month, where the station publishes it; halfway between high and low without it.
    monthly_means: Option<[Temperature; 12]>,
    /// The temperature that 99 % of the year's hours are above, from the same station.
    heating_99: Option<Temperature>,
    /// Another number gives other days with the same monthly highs and lows; 1 without it.
    weather_seed: Option<u64>,
    /// The clock people live by, such as "America/Chicago"; the weather's without it.
    time_zone: Option<Line>,
    /// Height above the sea; the weather's without it.
    elevation: Option<Height>,
    /// The coldest outdoor temperature to plan for.
    extreme_low: Option<Temperature>,
    /// The region of the grid, as eGRID writes it, such as RFCW.
    grid: Option<Line>,
    /// Share lost between plants and house.
    #[schemars(range(min = 0.0, max = 0.3))]
    grid_loss: Option<f64>,
    /// What a kWh that plants give stands for, kg of CO2e, instead of a region's.
    #[schemars(range(min = 0.0, max = 2.0))]
    grid_co2e: Option<f64>,
}

/// One file or several.
#[derive(JsonSchema)]
#[serde(untagged)]
enum Files {
    One(Line),
    Several(#[schemars(length(min = 1))] Vec<Line>),
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
enum WeatherFormat {
    Tmy3,
    Tmy2,
    Epw,
    IsdLite,
    Nsrdb,
    Pvgis,
    PlainCsv,
    DatedCsv,
    Bins,
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
enum WeatherGaps {
    Line,
    NeighbouringDays,
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
enum WeatherClock {
    Utc,
    Standard,
}

/// The house.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct House {
    /// Of the whole house.
    floor_area: Option<Area>,
    /// Current that the electric panel can still carry.
    panel_spare: Option<Current>,
    /// Days until a failed machine is mended in a cold spell.
    #[schemars(range(min = 1, max = 30))]
    repair_days: Option<u32>,
    /// Where the design loads come from.
    load_source: Option<Line>,
    /// How far the design loads may be off, as a share.
    #[schemars(range(min = 0.0, max = 0.5))]
    load_uncertainty: Option<f64>,
    /// One for each part with its own thermostat.
    #[schemars(length(min = 1))]
    zone: Vec<Zone>,
}

/// What the house burned in winters gone by.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct PastUse {
    /// What heated the house, by its name in the prices' table; it needs no price.
    fuel: Line,
    /// Share of the fuel's energy that reached the rooms as heat: the old machine's efficiency times what its
    /// ducts kept; more than 1 for a heat pump.
    #[schemars(range(min = 0.3, max = 5.0))]
    efficiency: f64,
    /// What else took of the same fuel, in a month.
    other_use: Option<Amount>,
    /// Where the figures come from.
    source: Option<Line>,
    /// None over another.
    #[schemars(length(min = 1))]
    bills: Vec<Bill>,
}

/// One bill, or the fuel burned from one fill to the next.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct Bill {
    /// The first day.
    from: CalendarDay,
    /// The day of the next reading or fill, itself left out; up to 400 days on.
    to: CalendarDay,
    /// What was used.
    used: Amount,
}

/// A part of the house with its own thermostat. The four keys cooling_design_load,
/// cooling_design_temperature, cooling_balance_temperature and cooling_set_point go together.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("dependentRequired" = {
    "cooling_design_load": ["cooling_design_temperature", "cooling_balance_temperature", "cooling_set_point"],
    "cooling_design_temperature": ["cooling_design_load", "cooling_balance_temperature", "cooling_set_point"],
    "cooling_balance_temperature": ["cooling_design_load", "cooling_design_temperature", "cooling_set_point"],
    "cooling_set_point": ["cooling_design_load", "cooling_design_temperature", "cooling_balance_temperature"]
}))]
struct Zone {
    /// Its name, used by the options.
    name: Line,
    /// Heat loss indoors to outdoors at the design temperature, gains not deducted.
    design_load: Power,
    /// Outdoors, from the same load calculation.
    design_temperature: Temperature,
    /// Indoors, from the same load calculation.
    indoor: Temperature,
    /// Warmer outdoors than this, no heat is needed.
    balance_temperature: Temperature,
    /// Whether the load calculation already counts duct losses.
    design_load_includes_ducts: bool,
    /// Share of the ducts' heat that reaches the rooms.
    #[schemars(range(min = 0.5, max = 1.0))]
    duct_efficiency: Option<f64>,
    /// What the ducts are like, instead of duct_efficiency.
    ducts: Option<Ducts>,
    /// Of rooms and contents; "0 kWh/K" asks for the steady line.
    heat_capacity: Option<HeatCapacity>,
    /// Of this zone.
    floor_area: Option<Area>,
    /// Of the thermostat; the indoor temperature without it.
    heating_set_point: Option<Temperature>,
    /// Times of day with another set point; they do not overlap.
    set_back: Option<Vec<SetBack>>,
    /// Warmer indoors than this, windows are opened.
    vent: Option<Temperature>,
    /// Sensible cooling load at the cooling design temperature.
    cooling_design_load: Option<Power>,
    /// Outdoors.
    cooling_design_temperature: Option<Temperature>,
    /// Colder outdoors than this, no cooling is needed.
    cooling_balance_temperature: Option<Temperature>,
    /// Of the thermostat.
    cooling_set_point: Option<Temperature>,
}

/// Supply and return ducts outside the rooms.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct Ducts {
    /// Surface of the supply ducts.
    supply_area: Area,
    /// Surface of the return ducts.
    return_area: Area,
    /// Insulation of the supply ducts, the R-value as sold in the United States.
    #[schemars(range(min = 0.5, max = 60.0))]
    supply_r: f64,
    /// Insulation of the return ducts.
    #[schemars(range(min = 0.5, max = 60.0))]
    return_r: f64,
    /// Air moved while the machine runs.
    airflow: Airflow,
    /// Share of the air that leaks out of the supply ducts.
    #[schemars(range(min = 0.0, max = 0.5))]
    supply_leak: f64,
    /// Share of the air that leaks into the return ducts.
    #[schemars(range(min = 0.0, max = 0.5))]
    return_leak: f64,
    /// Around the ducts in the middle of the heating season; outdoors without it.
    ambient: Option<Temperature>,
}

/// A time of day with another set point.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct SetBack {
    /// When it begins.
    from: Clock,
    /// When it ends; before `from`, it crosses midnight.
    to: Clock,
    /// The set point between the two.
    set_point: Temperature,
}

/// What people use beside heating and cooling; a machine goes with how much it is used.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("dependentRequired" = {
    "hot_water": ["hot_water_use"], "dryer": ["dryer_loads_a_week"], "range": ["cooking"]
}))]
struct Household {
    /// Lights, refrigeration and all electricity that no other key counts.
    base_electricity: Option<YearlyEnergy>,
    /// Hot water used in a day.
    hot_water_use: Option<WaterUse>,
    /// At which it leaves the heater; 120 °F without it.
    hot_water_temperature: Option<Temperature>,
    /// Of the cold water, all year; by the season of the place without it.
    mains_temperature: Option<Temperature>,
    /// Loads of wash dried in a week.
    #[schemars(range(min = 0.0, max = 100.0))]
    dryer_loads_a_week: Option<f64>,
    /// Heat that reaches the food in a year.
    cooking: Option<YearlyEnergy>,
    /// The water heater of every option that names no other.
    hot_water: Option<Line>,
    /// The dryer of every option that names no other.
    dryer: Option<Line>,
    /// The range of every option that names no other.
    range: Option<Line>,
}

/// One way to heat and cool the house.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct Choice {
    /// Its name in the report.
    name: Line,
    /// Its water heater, where it is not the household's.
    hot_water: Option<Line>,
    /// Its dryer, where it is not the household's.
    dryer: Option<Line>,
    /// Its range, where it is not the household's.
    range: Option<Line>,
    /// The stores it burns from, one a fuel, where they are not the first of their fuel.
    #[schemars(length(min = 1))]
    supply: Option<Vec<Line>>,
    /// The parts of the whole job as installed.
    cost: Option<Vec<Cost>>,
    /// Grants, credits and rebates.
    incentive: Option<Vec<Incentive>>,
    /// What is lent for it.
    loan: Option<Loan>,
    /// What looking after it costs, such as "150 $/year".
    upkeep: Option<Money>,
    /// One for each zone of the house.
    #[schemars(length(min = 1))]
    zone: Vec<ChoiceZone>,
}

/// The machines of one zone.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct ChoiceZone {
    /// A zone of the house.
    zone: Line,
    /// Machines in order: each adds what those before it lack.
    #[schemars(length(min = 1))]
    heating: Vec<Line>,
    /// One machine.
    cooling: Option<Line>,
    /// Colder outdoors than this, heat pumps stay off.
    compressor_lockout: Option<Temperature>,
    /// How heat pump and furnace share an hour that the heat pump cannot carry.
    sharing: Option<Sharing>,
    /// By what rule hours go to heat pump or furnace; on cost, sharing has no meaning.
    changeover: Option<ChangeoverRule>,
    /// Whether strips are held back while a room recovers from a set-back.
    staged_recovery: Option<bool>,
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
enum ChangeoverRule {
    Temperature,
    Cost,
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
enum Sharing {
    InTime,
    WholeHour,
}

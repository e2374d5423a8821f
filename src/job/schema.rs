//! The JSON Schema of a job file, for editors that complete and check while it is typed.
//!
//! Says the form only: names that refer to each other, orders of rows and currencies are the
//! reader's to judge. Beside the readers, and a test holds both to the same keys. Start at [`text`].

// The fields are read by the schema's derivation, never by the program.
#![allow(dead_code)]

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
            let left: Vec<_> = choices.into_iter().filter(|c| c.get("type").is_none_or(|t| t != "null")).collect();
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
    /// The machines.
    #[schemars(length(min = 1))]
    equipment: Vec<Machine>,
    /// The ways to heat the house that are compared.
    #[schemars(length(min = 1))]
    option: Vec<Choice>,
    /// What one more unit of each fuel costs; the key is the fuel: electricity, natural_gas, propane,
    /// oil_no_1, oil_no_2, kerosene, cord_wood, pellets.
    #[schemars(extend("minProperties" = 1))]
    prices: BTreeMap<String, FuelPrice>,
}

/// A line of text.
#[derive(JsonSchema)]
#[serde(transparent)]
struct Line(#[schemars(length(min = 1, max = 500))] String);

/// A temperature, such as "70 degF" or "21 degC".
#[derive(JsonSchema)]
#[serde(transparent)]
struct Temperature(#[schemars(regex(pattern = r"^\s*[+-]?[0-9.,]+([eE][+-]?[0-9]+)?\s*((deg|°)?\s*[FCfc]|[Kk]|kelvin)\s*$"))] String);

/// A rate of heat or electricity, such as "36000 Btu/h", "36 kBtu/h" or "10.5 kW".
#[derive(JsonSchema)]
#[serde(transparent)]
struct Power(#[schemars(regex(pattern = r"^\s*\+?[0-9.,]+([eE][+-]?[0-9]+)?\s*([kK]?[wW]|[kK]?(BTU|Btu|btu)(/hr?|h)|(MBH|mbh)|[Tt]on)\s*$"))] String);

/// A floor area, such as "2600 ft2" or "240 m2".
#[derive(JsonSchema)]
#[serde(transparent)]
struct Area(#[schemars(regex(pattern = r"^\s*\+?[0-9.,]+([eE][+-]?[0-9]+)?\s*(m2|m²|ft2|ft²|sq ?ft)\s*$"))] String);

/// A height, such as "1150 ft" or "350 m".
#[derive(JsonSchema)]
#[serde(transparent)]
struct Height(#[schemars(regex(pattern = r"^\s*[+-]?[0-9.,]+([eE][+-]?[0-9]+)?\s*(m|ft)\s*$"))] String);

/// Heat stored for each degree, such as "6 kWh/K" or "11400 Btu/degF".
#[derive(JsonSchema)]
#[serde(transparent)]
struct HeatCapacity(#[schemars(regex(pattern = r"^\s*\+?[0-9.,]+([eE][+-]?[0-9]+)?\s*(k?Wh/K|kJ/K|[Bb][Tt][Uu]/(deg|°)?F)\s*$"))] String);

/// A time on the wall clock, such as "22:00".
#[derive(JsonSchema)]
#[serde(transparent)]
struct Clock(#[schemars(regex(pattern = r"^\s*([01]?[0-9]|2[0-3]):[0-5][0-9]\s*$"))] String);

/// A day of the year, month first: "01-10".
#[derive(JsonSchema)]
#[serde(transparent)]
struct Day(#[schemars(regex(pattern = r"^\s*[0-9]{1,2}-[0-9]{1,2}\s*$"))] String);

/// An amount and what it is for, such as "2.49 $/gal" or "18.4 c/kWh".
#[derive(JsonSchema)]
#[serde(transparent)]
struct Money(#[schemars(regex(pattern = r"^[^/]*[0-9][^/]*/.+$"))] String);

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
    /// The currency's sign; "$" without it.
    #[schemars(length(min = 1, max = 5))]
    currency: Option<String>,
    /// What is printed: °F, Btu/h and gallons, or °C, kW and litres; us without it.
    units: Option<Units>,
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
enum Units {
    Us,
    Si,
}

/// Where the house stands; exactly one of weather and weather_file.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("oneOf" = [{"required": ["weather"]}, {"required": ["weather_file"]}]))]
struct Site {
    /// The place, in a few words.
    name: Line,
    /// A built-in place, such as "il-chicago"; `winterledger weather` lists them.
    weather: Option<Line>,
    /// A weather file; the path counts from this file's folder.
    weather_file: Option<Line>,
    /// The clock people live by, such as "America/Chicago"; the weather's without it.
    time_zone: Option<Line>,
    /// Height above the sea; the weather's without it.
    elevation: Option<Height>,
    /// The coldest outdoor temperature to plan for.
    extreme_low: Option<Temperature>,
}

/// The house.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct House {
    /// Of the whole house.
    floor_area: Option<Area>,
    /// One for each part with its own thermostat.
    #[schemars(length(min = 1))]
    zone: Vec<Zone>,
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

/// A machine.
#[derive(JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
enum Machine {
    /// A heat pump; rows under heating (and cooling), or the name of a built-in table.
    #[schemars(extend("oneOf" = [{"required": ["heating"]}, {"required": ["table"]}]))]
    HeatPump {
        /// Its name, used by the options.
        name: Line,
        /// Whether its heat goes through the zone's ducts.
        ducted: bool,
        /// Whether frost is still to be charged for (steady) or already in the figures (with_defrost);
        /// needed with heating rows.
        capacity_basis: Option<CapacityBasis>,
        /// Needed with typed rows.
        power_includes_indoor_fan: Option<bool>,
        /// The indoor fan's draw, where it is not included.
        indoor_fan: Option<Power>,
        /// Heating by outdoor temperature, in rising or falling order.
        heating: Option<Rows>,
        /// Cooling by outdoor temperature, in rising or falling order.
        cooling: Option<Rows>,
        /// The name of a generic table that comes with the program.
        table: Option<Line>,
        /// At or below this outdoor temperature it is off.
        cut_out: Option<Temperature>,
        /// Above this it is on again; not below cut_out.
        cut_on: Option<Temperature>,
        /// Whether it turns down, where the rows give no least output.
        speed: Option<Speed>,
        /// Share lost by cycling below the least output.
        #[schemars(range(min = 0.0, max = 0.5))]
        cycling_loss: Option<f64>,
        /// Drawn in hours without output.
        standby: Option<Power>,
        /// The pan heater's draw.
        pan_heater: Option<Power>,
        /// Outdoor temperature below which the pan heater is on.
        pan_heater_below: Option<Temperature>,
        /// On capacity.
        #[schemars(range(min = 0.3, max = 1.0))]
        altitude_factor: Option<f64>,
        /// Where that factor comes from.
        altitude_factor_source: Option<Line>,
        /// In cooling.
        #[schemars(range(min = 0.4, max = 1.0))]
        sensible_heat_ratio: Option<f64>,
    },
    /// An air conditioner; rows under cooling, or the name of a built-in table.
    #[schemars(extend("oneOf" = [{"required": ["cooling"]}, {"required": ["table"]}]))]
    AirConditioner {
        /// Its name, used by the options.
        name: Line,
        /// Whether its cold goes through the zone's ducts.
        ducted: bool,
        /// Needed with typed rows.
        power_includes_indoor_fan: Option<bool>,
        /// The indoor fan's draw, where it is not included.
        indoor_fan: Option<Power>,
        /// Cooling by outdoor temperature, in rising or falling order.
        cooling: Option<Rows>,
        /// The name of a generic table that comes with the program.
        table: Option<Line>,
        /// Whether it turns down, where the rows give no least output.
        speed: Option<Speed>,
        /// Share lost by cycling below the least output.
        #[schemars(range(min = 0.0, max = 0.5))]
        cycling_loss: Option<f64>,
        /// Drawn in hours without output.
        standby: Option<Power>,
        /// Share of the total cold that is sensible.
        #[schemars(range(min = 0.4, max = 1.0))]
        sensible_heat_ratio: Option<f64>,
        /// On capacity.
        #[schemars(range(min = 0.3, max = 1.0))]
        altitude_factor: Option<f64>,
    },
    /// A furnace.
    Furnace {
        /// Its name, used by the options.
        name: Line,
        /// A fuel of [prices].
        fuel: Line,
        /// Fuel burned at full fire.
        input: Power,
        /// Seasonal efficiency as a share.
        #[schemars(range(min = 0.5, max = 1.0))]
        afue: f64,
        /// The blower's draw.
        blower: Option<Power>,
        /// Least steady output as a share of the full one.
        #[schemars(range(min = 0.1, max = 1.0))]
        turndown: Option<f64>,
        /// On input and output.
        #[schemars(range(min = 0.3, max = 1.0))]
        altitude_factor: Option<f64>,
        /// Whether its heat goes through the zone's ducts; true without it.
        ducted: Option<bool>,
        /// Drawn in hours without output.
        standby: Option<Power>,
    },
    /// Resistance heat: strips in the duct or baseboards in the room.
    Resistance {
        /// Its name, used by the options.
        name: Line,
        /// Strips in the duct (true) or baseboards in the room (false).
        ducted: bool,
        /// Its stages.
        #[schemars(length(min = 1))]
        stages: Vec<Power>,
        /// Warmer outdoors than this, it stays off.
        lockout_above: Option<Temperature>,
    },
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
enum CapacityBasis {
    Steady,
    WithDefrost,
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
enum Speed {
    One,
    Variable,
}

/// Rows of a machine's table.
#[derive(JsonSchema)]
#[serde(transparent)]
struct Rows(#[schemars(length(min = 1))] Vec<Row>);

/// Outputs at one outdoor temperature, each with its COP or its draw.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("oneOf" = [{"required": ["greatest_cop"]}, {"required": ["greatest_power"]}]))]
struct Row {
    /// The outdoor temperature.
    outdoor: Temperature,
    /// Least output that it can hold without cycling; in every row or in none.
    least: Option<Power>,
    /// COP at the least output.
    #[schemars(range(min = 1.0, max = 10.0))]
    least_cop: Option<f64>,
    /// Draw at the least output.
    least_power: Option<Power>,
    /// Rated output; in every row or in none.
    rated: Option<Power>,
    /// COP at the rated output.
    #[schemars(range(min = 1.0, max = 10.0))]
    rated_cop: Option<f64>,
    /// Draw at the rated output.
    rated_power: Option<Power>,
    /// Greatest output.
    greatest: Power,
    /// COP at the greatest output.
    #[schemars(range(min = 1.0, max = 10.0))]
    greatest_cop: Option<f64>,
    /// Draw at the greatest output.
    greatest_power: Option<Power>,
}

/// One way to heat and cool the house.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct Choice {
    /// Its name in the report.
    name: Line,
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
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
enum Sharing {
    InTime,
    WholeHour,
}

/// The prices of one fuel; exactly one of price and price_by_month.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("oneOf" = [{"required": ["price"]}, {"required": ["price_by_month"]}]))]
struct FuelPrice {
    /// Due each month whatever is used, such as "36 $/month".
    fixed: Option<Money>,
    /// The same in every month.
    price: Option<Money>,
    /// One for each month.
    price_by_month: Option<Months>,
    /// Where the prices come from: a bill, a quote, a guess.
    source: Option<Line>,
    /// Named times at which the price is higher (or lower).
    spike: Option<Vec<Spike>>,
}

/// Twelve prices by the same unit.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct Months {
    jan: Money,
    feb: Money,
    mar: Money,
    apr: Money,
    may: Money,
    jun: Money,
    jul: Money,
    aug: Money,
    sep: Money,
    oct: Money,
    nov: Money,
    dec: Money,
}

/// A time at which the price is higher (or lower).
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
struct Spike {
    /// What it is called.
    name: Line,
    /// First day.
    from: Day,
    /// Last day, included; before `from` in the year, it crosses the new year.
    to: Day,
    /// Factor on the price.
    #[schemars(range(min = 0.1, max = 20.0))]
    times: f64,
}

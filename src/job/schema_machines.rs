//! The JSON Schema of the `[[equipment]]` tables, a form for each kind of machine.
//!
//! Must never know zones or options. Start at [`Machine`].

// The fields are read by the schema's derivation, never by the program.
#![allow(dead_code)]
// None of these is ever made, so their size costs nothing.
#![allow(clippy::large_enum_variant)]

use super::schema_values::{Airflow, Day, Energy, Height, Line, Power, Temperature};
use schemars::JsonSchema;

/// A machine.
#[derive(JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
#[allow(clippy::large_enum_variant)]
pub(super) enum Machine {
    /// A heat pump; rows under heating (and cooling), the name of a built-in table, or a nameplate.
    #[schemars(extend("oneOf" = [{"required": ["heating"]}, {"required": ["table"]}, {"required": ["nameplate"]}]))]
    HeatPump {
        /// Its name, used by the options.
        name: Line,
        /// Whether its heat goes through the zone's ducts.
        ducted: bool,
        /// Through the ducts at full output; only with ducts.
        airflow: Option<Airflow>,
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
        /// What stands on its nameplate and label, instead of rows.
        nameplate: Option<HeatPumpPlate>,
        /// HSPF2 on its label, Btu/Wh, to be held against the rows.
        #[schemars(range(min = 3.5, max = 20.0))]
        label_hspf2: Option<f64>,
        /// SEER2 on its label, Btu/Wh, to be held against the rows.
        #[schemars(range(min = 5.0, max = 50.0))]
        label_seer2: Option<f64>,
        /// The outdoor unit that this head shares with others.
        outdoor_unit: Option<Line>,
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
        /// What tempers the air while it defrosts: the power of strips, "furnace" or "none". Without
        /// it the first stage of the strips behind it in the ducts, else the furnace there.
        defrost_aux: Option<DefrostAuxValue>,
        /// Minutes of them each time; 6 without it.
        #[schemars(range(max = 30.0), extend("exclusiveMinimum" = 0.0))]
        defrost_minutes: Option<f64>,
        /// Minutes of running between two times; 90 without it.
        #[schemars(range(min = 30.0, max = 720.0))]
        defrost_every_minutes: Option<f64>,
        /// On capacity.
        #[schemars(range(min = 0.3, max = 1.0))]
        altitude_factor: Option<f64>,
        /// Where that factor comes from.
        altitude_factor_source: Option<Line>,
        /// In cooling.
        #[schemars(range(min = 0.4, max = 1.0))]
        sensible_heat_ratio: Option<f64>,
    },
    /// A heat pump on a ground loop; its rows stand at what enters from the loop.
    GroundSourceHeatPump {
        /// Its name, used by the options.
        name: Line,
        /// Whether its heat goes through the zone's ducts.
        ducted: bool,
        /// Through the ducts at full output; only with ducts.
        airflow: Option<Airflow>,
        /// Whether the rows' power has the indoor fan in it.
        power_includes_indoor_fan: bool,
        /// The indoor fan's draw, where it is not included.
        indoor_fan: Option<Power>,
        /// Heating by entering temperature, in rising or falling order.
        #[schemars(length(min = 1))]
        heating: Vec<LoopRow>,
        /// Cooling by entering temperature, in rising or falling order.
        #[schemars(length(min = 1))]
        cooling: Option<Vec<LoopRow>>,
        /// Whether it turns down, where the rows give no least output.
        speed: Option<Speed>,
        /// Share lost by cycling below the least output.
        #[schemars(range(min = 0.0, max = 0.5))]
        cycling_loss: Option<f64>,
        /// Drawn in hours without output.
        standby: Option<Power>,
        /// In cooling.
        #[schemars(range(min = 0.4, max = 1.0))]
        sensible_heat_ratio: Option<f64>,
        /// What enters from the loop at the design load when the ground is at its coldest.
        design_entering: Temperature,
        /// What enters at the cooling design load when the ground is at its warmest; needed with cooling.
        cooling_design_entering: Option<Temperature>,
        /// Mean depth of the loop.
        loop_depth: Height,
        /// Thermal diffusivity of the ground, m2 a day.
        #[schemars(range(min = 0.01, max = 0.2))]
        ground_diffusivity: Option<f64>,
        /// The loop pump's draw while the machine runs.
        loop_pump: Option<Power>,
    },
    /// An air conditioner; rows under cooling, the name of a built-in table, or a nameplate.
    #[schemars(extend("oneOf" = [{"required": ["cooling"]}, {"required": ["table"]}, {"required": ["nameplate"]}]))]
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
        /// What stands on its nameplate and label, instead of rows.
        nameplate: Option<CoolerPlate>,
        /// SEER2 on its label, Btu/Wh, to be held against the rows.
        #[schemars(range(min = 5.0, max = 50.0))]
        label_seer2: Option<f64>,
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
        /// Through the ducts at full output; only with ducts.
        airflow: Option<Airflow>,
        /// Drawn in hours without output.
        standby: Option<Power>,
        /// Warmer outdoors than this, it stays off.
        lockout_above: Option<Temperature>,
    },
    /// A boiler with its pumps; heats without ducts.
    Boiler {
        /// Its name, used by the options.
        name: Line,
        /// A fuel of [prices].
        fuel: Line,
        /// Fuel burned at full fire.
        input: Power,
        /// Seasonal efficiency as a share.
        #[schemars(range(min = 0.5, max = 1.0))]
        afue: f64,
        /// Draw of the circulating pumps while it runs.
        pump: Option<Power>,
        /// Least steady output as a share of the full one.
        #[schemars(range(min = 0.1, max = 1.0))]
        turndown: Option<f64>,
        /// On input and output.
        #[schemars(range(min = 0.3, max = 1.0))]
        altitude_factor: Option<f64>,
        /// Drawn in hours without output.
        standby: Option<Power>,
    },
    /// A heater in the room that it heats.
    WallHeater {
        /// Its name, used by the options.
        name: Line,
        /// A fuel of [prices].
        fuel: Line,
        /// Fuel burned at full fire.
        input: Power,
        /// Share of the fuel that becomes heat while it runs; what a pilot burns in between left out.
        #[schemars(range(min = 0.4, max = 1.0))]
        efficiency: f64,
        /// What a standing pilot burns.
        pilot: Option<Power>,
        /// First day on which the pilot is lit.
        pilot_from: Option<Day>,
        /// Last day on which the pilot is lit.
        pilot_to: Option<Day>,
        /// On input and output.
        #[schemars(range(min = 0.3, max = 1.0))]
        altitude_factor: Option<f64>,
        /// Drawn in hours without output.
        standby: Option<Power>,
    },
    /// A stove filled by hand; it heats without electricity.
    WoodStove {
        /// Its name, used by the options.
        name: Line,
        /// A fuel of [prices].
        fuel: Line,
        /// Fuel burned at full fire.
        input: Power,
        /// Share of the fuel that becomes heat, over a whole fire.
        #[schemars(range(min = 0.4, max = 1.0))]
        efficiency: f64,
        /// The most fuel laid in from midnight to midnight: energy, or a measure of the fuel.
        daily_fuelling: Option<Line>,
    },
    /// A stove whose pellets a motor feeds.
    PelletStove {
        /// Its name, used by the options.
        name: Line,
        /// A fuel of [prices].
        fuel: Line,
        /// Fuel burned at full fire.
        input: Power,
        /// Share of the fuel that becomes heat, over a whole fire.
        #[schemars(range(min = 0.4, max = 1.0))]
        efficiency: f64,
        /// The most fuel laid in from midnight to midnight: energy, or a measure of the fuel.
        daily_fuelling: Option<Line>,
        /// Draw of motor and fans while it burns.
        power: Option<Power>,
    },
    /// Resistance heat: strips in the duct or baseboards in the room.
    Resistance {
        /// Its name, used by the options.
        name: Line,
        /// Strips in the duct (true) or baseboards in the room (false).
        ducted: bool,
        /// Through the ducts at full output; only with ducts.
        airflow: Option<Airflow>,
        /// Its stages.
        #[schemars(length(min = 1))]
        stages: Vec<Power>,
        /// Warmer outdoors than this, it stays off.
        lockout_above: Option<Temperature>,
    },
    /// An outdoor unit that several heads share; the heads are heat pumps that name it.
    OutdoorUnit {
        /// Its name, used by its heads.
        name: Line,
        /// Whether frost is still to be charged for (steady) or already in the figures (with_defrost).
        capacity_basis: CapacityBasis,
        /// What it gives to all heads together, in rising or falling order of outdoor temperature.
        #[schemars(length(min = 2))]
        heating: Vec<UnitRow>,
        /// What total cooling it gives to all heads together; without it their cooling is not bound by it.
        #[schemars(length(min = 1))]
        cooling: Option<Vec<UnitRow>>,
        /// At or below this outdoor temperature it is off.
        cut_out: Option<Temperature>,
    },
    /// A water heater.
    WaterHeater {
        /// Its name, used by the household and the options.
        name: Line,
        /// How it heats.
        form: WaterHeaterForm,
        /// A fuel of [prices]; a heat pump's is electricity.
        fuel: Option<Line>,
        /// Heat in the water over energy drawn: the uniform energy factor of its label.
        #[schemars(range(min = 0.3, max = 6.0))]
        efficiency: f64,
        /// What it burns or draws at most.
        input: Option<Power>,
        /// Whether it stands in the heated space; a heat pump needs it.
        location: Option<Location>,
        /// The zone whose air a heat pump cools.
        zone: Option<Line>,
    },
    /// A clothes dryer.
    Dryer {
        /// Its name, used by the household and the options.
        name: Line,
        /// A fuel of [prices].
        fuel: Line,
        /// Of its fuel.
        energy_per_load: Energy,
        /// Drum and fan beside a burner.
        electricity_per_load: Option<Energy>,
    },
    /// A kitchen range.
    Range {
        /// Its name, used by the household and the options.
        name: Line,
        /// A fuel of [prices].
        fuel: Line,
        /// Heat that reaches the food over energy drawn.
        #[schemars(range(min = 0.1, max = 1.0))]
        efficiency: f64,
    },
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(super) enum WaterHeaterForm {
    Tank,
    Tankless,
    HeatPump,
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(super) enum Location {
    Inside,
    Outside,
}

/// What tempers the air while a heat pump defrosts: strips of a power, such as "5 kW", "furnace" or "none".
#[derive(JsonSchema)]
#[serde(untagged)]
pub(super) enum DefrostAuxValue {
    /// Their power.
    Power(Power),
    /// None, or a furnace behind it in the ducts.
    Other(NoneOrFurnace),
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(super) enum NoneOrFurnace {
    None,
    Furnace,
}

/// What an outdoor unit gives at one outdoor temperature.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct UnitRow {
    /// The outdoor temperature.
    outdoor: Temperature,
    /// Greatest output to all heads together.
    greatest: Power,
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(super) enum CapacityBasis {
    Steady,
    WithDefrost,
}

#[derive(JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(super) enum Speed {
    One,
    Two,
    Variable,
}

/// A heat pump's nameplate and label.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct HeatPumpPlate {
    /// Greatest heating output at 47 °F outdoors.
    capacity_47: Power,
    /// At 17 °F.
    capacity_17: Power,
    /// At 5 °F; without it nothing is known below 8 °F.
    capacity_5: Option<Power>,
    /// HSPF2 of region IV, Btu/Wh.
    #[schemars(range(min = 3.5, max = 20.0))]
    hspf2: f64,
    /// Greatest total cooling at 95 °F outdoors; with seer2, if it cools.
    cooling_capacity_95: Option<Power>,
    /// SEER2, Btu/Wh.
    #[schemars(range(min = 5.0, max = 50.0))]
    seer2: Option<f64>,
    /// Least output as a share of the greatest; 1 for a machine of one speed.
    #[schemars(range(min = 0.1, max = 1.0))]
    turndown: f64,
}

/// An air conditioner's nameplate and label.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct CoolerPlate {
    /// Greatest total cooling at 95 °F outdoors.
    cooling_capacity_95: Power,
    /// SEER2, Btu/Wh.
    #[schemars(range(min = 5.0, max = 50.0))]
    seer2: f64,
    /// Least output as a share of the greatest; 1 for a machine of one speed.
    #[schemars(range(min = 0.1, max = 1.0))]
    turndown: f64,
}

/// Rows of a machine's table.
#[derive(JsonSchema)]
#[serde(transparent)]
pub(super) struct Rows(#[schemars(length(min = 1))] Vec<Row>);

/// Outputs at one outdoor temperature, each with its COP or its draw.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("oneOf" = [{"required": ["greatest_cop"]}, {"required": ["greatest_power"]}]))]
pub(super) struct Row {
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

/// Outputs at one temperature from the loop, each with its COP or its draw.
#[derive(JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("oneOf" = [{"required": ["greatest_cop"]}, {"required": ["greatest_power"]}]))]
pub(super) struct LoopRow {
    /// What enters from the loop.
    entering: Temperature,
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

//! The `[[equipment]]` tables as typed: one struct a kind of machine, field names are the keys.
//!
//! Must never know what a machine does. Start at [`EquipmentSection`].

use super::burners::{BoilerSection, StoveSection, WallHeaterSection};
use super::household::{DryerSection, RangeSection, WaterHeaterSection};
use super::nameplates::NameplateSection;
use super::typed::Typed;
use crate::units::{Airflow, Length, Power, Temperature};

/// One `[[equipment]]` table.
#[derive(Debug, Clone, PartialEq)]
pub struct EquipmentSection {
    /// `name`: unique among the machines.
    pub name: Typed<String>,
    /// `kind`, with the keys of that kind.
    pub kind: Typed<MachineSection>,
}

/// The keys that belong to one `kind`.
#[derive(Debug, Clone, PartialEq)]
pub enum MachineSection {
    /// `kind = "heat_pump"` or `"ground_source_heat_pump"`.
    HeatPump(Box<HeatPumpSection>),
    /// `kind = "air_conditioner"`.
    AirConditioner(Box<AirConditionerSection>),
    /// `kind = "furnace"`.
    Furnace(Box<FurnaceSection>),
    /// `kind = "boiler"`.
    Boiler(Box<BoilerSection>),
    /// `kind = "wall_heater"`.
    WallHeater(Box<WallHeaterSection>),
    /// `kind = "wood_stove"`.
    WoodStove(Box<StoveSection>),
    /// `kind = "pellet_stove"`.
    PelletStove(Box<StoveSection>),
    /// `kind = "resistance"`.
    Resistance(ResistanceSection),
    /// `kind = "water_heater"`.
    WaterHeater(WaterHeaterSection),
    /// `kind = "dryer"`.
    Dryer(DryerSection),
    /// `kind = "range"`.
    Range(RangeSection),
    /// `kind = "outdoor_unit"`.
    OutdoorUnit(OutdoorUnitSection),
}

/// Keys of a heat pump.
#[derive(Debug, Clone, PartialEq)]
pub struct HeatPumpSection {
    /// `ducted`: whether its heat goes through the zone's ducts.
    pub ducted: Typed<bool>,
    /// `airflow` through the ducts at full output, more than 0; only with ducts.
    pub airflow: Option<Typed<Airflow>>,
    /// `capacity_basis`; always there when heating rows are typed.
    pub capacity_basis: Option<Typed<CapacityBasis>>,
    /// `power_includes_indoor_fan`; always there when heating or cooling rows are typed.
    pub power_includes_indoor_fan: Option<Typed<bool>>,
    /// `indoor_fan`: its draw, 0 or more.
    pub indoor_fan: Option<Typed<Power>>,
    /// `heating`, `table` or `nameplate`: exactly one of the three.
    pub heating: MapSection,
    /// `cooling`: rows.
    pub cooling: Option<Typed<Vec<RowSection>>>,
    /// `label_hspf2`: 3.5 to 20 Btu/Wh, to be held against the map.
    pub label_hspf2: Option<Typed<f64>>,
    /// `label_seer2`: 5 to 50 Btu/Wh, to be held against the map.
    pub label_seer2: Option<Typed<f64>>,
    /// The keys of a ground loop, of `kind = "ground_source_heat_pump"` alone: then rows stand at the
    /// temperature that enters from the loop.
    pub ground: Option<GroundSection>,
    /// `outdoor_unit`: the name of the one that this head shares with others.
    pub outdoor_unit: Option<Typed<String>>,
    /// `cut_out`: at or below this outdoor temperature it is off.
    pub cut_out: Option<Typed<Temperature>>,
    /// `cut_on`: above this it is on again; not below `cut_out`.
    pub cut_on: Option<Typed<Temperature>>,
    /// `speed`: whether it can turn down, where the rows give no `least`.
    pub speed: Option<Typed<Speed>>,
    /// `cycling_loss`: the degradation coefficient C_D, 0 to 0.5.
    pub cycling_loss: Option<Typed<f64>>,
    /// `standby`: drawn in every hour without output, 0 or more.
    pub standby: Option<Typed<Power>>,
    /// `pan_heater`: its draw, 0 or more.
    pub pan_heater: Option<Typed<Power>>,
    /// `pan_heater_below`: outdoor temperature below which the pan heater is on.
    pub pan_heater_below: Option<Typed<Temperature>>,
    /// `defrost_aux`, `defrost_minutes` and `defrost_every_minutes`.
    pub defrost: DefrostSection,
    /// `altitude_factor`: on capacity, 0.3 to 1.
    pub altitude_factor: Option<Typed<f64>>,
    /// `altitude_factor_source`: where that factor comes from.
    pub altitude_factor_source: Option<Typed<String>>,
    /// `sensible_heat_ratio` in cooling, 0.4 to 1.
    pub sensible_heat_ratio: Option<Typed<f64>>,
}

/// Keys of the loop of a ground-source heat pump.
#[derive(Debug, Clone, PartialEq)]
pub struct GroundSection {
    /// `design_entering`: what enters from the loop at the design load in the ground's coldest.
    pub design_entering: Typed<Temperature>,
    /// `cooling_design_entering`: the same in cooling; always there when it cools.
    pub cooling_design_entering: Option<Typed<Temperature>>,
    /// `loop_depth`: mean depth of the loop, more than 0.
    pub loop_depth: Typed<Length>,
    /// `ground_diffusivity`: m² a day, more than 0.
    pub ground_diffusivity: Option<Typed<f64>>,
    /// `loop_pump`: its draw while the machine runs, 0 or more.
    pub loop_pump: Option<Typed<Power>>,
}

/// Keys of an outdoor unit that several heads share.
#[derive(Debug, Clone, PartialEq)]
pub struct OutdoorUnitSection {
    /// `capacity_basis` of its rows.
    pub capacity_basis: Typed<CapacityBasis>,
    /// `heating`: what it gives to all its heads together, at least two rows in order.
    pub heating: Typed<Vec<UnitRowSection>>,
    /// `cooling`: the total cooling that it gives to all its heads together, at least one row.
    pub cooling: Option<Typed<Vec<UnitRowSection>>>,
    /// `cut_out`: at or below this outdoor temperature it is off.
    pub cut_out: Option<Typed<Temperature>>,
}

/// One row of an outdoor unit.
#[derive(Debug, Clone, PartialEq)]
pub struct UnitRowSection {
    /// `outdoor` temperature.
    pub outdoor: Typed<Temperature>,
    /// `greatest` output to all heads together, more than 0.
    pub greatest: Typed<Power>,
}

/// Where a machine's capacity and draw come from.
#[derive(Debug, Clone, PartialEq)]
pub enum MapSection {
    /// Typed rows, at least one, sorted strictly by outdoor temperature (rising or falling).
    Rows(Typed<Vec<RowSection>>),
    /// `table`: the name of a built-in table.
    Table(Typed<String>),
    /// `nameplate`: what its label says.
    Nameplate(Box<Typed<NameplateSection>>),
}

/// What tempers the air while a heat pump defrosts, and how often.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct DefrostSection {
    /// `defrost_aux`: what does.
    pub aux: Option<Typed<DefrostAuxSection>>,
    /// `defrost_minutes`: of it each time, more than 0 to 30.
    pub minutes: Option<Typed<f64>>,
    /// `defrost_every_minutes`: of running between two times, 30 to 720.
    pub every_minutes: Option<Typed<f64>>,
}

/// `defrost_aux`: what tempers the air while a heat pump defrosts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DefrostAuxSection {
    /// `"none"`: nothing does.
    None,
    /// Electric heat of this power, more than 0.
    Strips(Power),
    /// `"furnace"`: a furnace behind it in the ducts, at its least output.
    Furnace,
}

/// `speed`: how a machine meets a load below its greatest output.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Speed {
    /// One speed: it cycles.
    One,
    /// Two speeds: the least output of its rows is the low one.
    Two,
    /// It turns down.
    Variable,
}

/// `capacity_basis`: what the typed capacities are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CapacityBasis {
    /// Steady operation: frost is still to be charged for.
    Steady,
    /// Frost and defrosting are already in the figures.
    WithDefrost,
}

/// One row of a `heating` or `cooling` table.
#[derive(Debug, Clone, PartialEq)]
pub struct RowSection {
    /// `outdoor` temperature.
    pub outdoor: Typed<Temperature>,
    /// `least` output that it can hold without cycling.
    pub least: Option<PointSection>,
    /// `rated` output.
    pub rated: Option<PointSection>,
    /// `greatest` output.
    pub greatest: PointSection,
    /// The whole row.
    pub span: std::ops::Range<usize>,
}

/// One capacity and what it draws.
#[derive(Debug, Clone, PartialEq)]
pub struct PointSection {
    /// `least`, `rated` or `greatest`: more than 0.
    pub capacity: Typed<Power>,
    /// `..._cop` or `..._power`: exactly one of the two.
    pub draw: Typed<DrawSection>,
}

/// The draw at one capacity, in one of two ways to say it; the COP is 1 to 10 either way, to 20 in cooling from a ground loop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DrawSection {
    /// `..._cop`: capacity over draw.
    Cop(f64),
    /// `..._power`: the draw.
    Power(Power),
}

/// Keys of an air conditioner.
#[derive(Debug, Clone, PartialEq)]
pub struct AirConditionerSection {
    /// `ducted`.
    pub ducted: Typed<bool>,
    /// `power_includes_indoor_fan`; always there when rows are typed.
    pub power_includes_indoor_fan: Option<Typed<bool>>,
    /// `indoor_fan`: its draw, 0 or more.
    pub indoor_fan: Option<Typed<Power>>,
    /// `cooling`, `table` or `nameplate`: exactly one of the three.
    pub cooling: MapSection,
    /// `label_seer2`: 5 to 50 Btu/Wh, to be held against the map.
    pub label_seer2: Option<Typed<f64>>,
    /// `speed`: whether it can turn down, where the rows give no `least`.
    pub speed: Option<Typed<Speed>>,
    /// `cycling_loss`: the degradation coefficient C_D, 0 to 0.5.
    pub cycling_loss: Option<Typed<f64>>,
    /// `standby`: 0 or more.
    pub standby: Option<Typed<Power>>,
    /// `sensible_heat_ratio`, 0.4 to 1.
    pub sensible_heat_ratio: Option<Typed<f64>>,
    /// `altitude_factor`: on capacity, 0.3 to 1.
    pub altitude_factor: Option<Typed<f64>>,
}

/// Keys of a furnace.
#[derive(Debug, Clone, PartialEq)]
pub struct FurnaceSection {
    /// `fuel`: a fuel's id; the job has a price for it.
    pub fuel: Typed<String>,
    /// `input`: fuel burned at full fire, more than 0.
    pub input: Typed<Power>,
    /// `afue`: 0.5 to 1.
    pub afue: Typed<f64>,
    /// `blower`: its draw, 0 or more.
    pub blower: Option<Typed<Power>>,
    /// `turndown`: least steady output as a share of the full one, 0.1 to 1.
    pub turndown: Option<Typed<f64>>,
    /// `altitude_factor`: on input and output, 0.3 to 1.
    pub altitude_factor: Option<Typed<f64>>,
    /// `ducted`; without it the furnace is ducted.
    pub ducted: Option<Typed<bool>>,
    /// `airflow` through the ducts at full output, more than 0; only with ducts.
    pub airflow: Option<Typed<Airflow>>,
    /// `standby`: 0 or more.
    pub standby: Option<Typed<Power>>,
    /// `lockout_above`: outdoor temperature above which it stays off.
    pub lockout_above: Option<Typed<Temperature>>,
}

/// Keys of resistance heat.
#[derive(Debug, Clone, PartialEq)]
pub struct ResistanceSection {
    /// `ducted`: strips in the duct (true) or baseboards in the room (false).
    pub ducted: Typed<bool>,
    /// `airflow` through the ducts at full output, more than 0; only with ducts.
    pub airflow: Option<Typed<Airflow>>,
    /// `stages`: at least one, each more than 0.
    pub stages: Typed<Vec<Typed<Power>>>,
    /// `lockout_above`: outdoor temperature above which it stays off.
    pub lockout_above: Option<Typed<Temperature>>,
}

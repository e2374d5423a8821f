//! Powers of machines that are far from what such machines have: a digit too many or too few, W typed for
//! kW, Btu/h for kBtu/h.
//!
//! Only remarks; the ranges are common practice, drawn wide so that ordinary machines are left alone. Start
//! at [`tenfolds`].

use crate::job::{
    AirConditionerSection, DefrostAuxSection, EquipmentSection, HeatPumpSection, Job, MachineSection,
    MapSection, RowSection, Typed, UnitRowSection,
};
use crate::units::{Power, Quantity, btu_to_kwh};
use std::ops::RangeInclusive;

/// A power that such a machine hardly has.
#[derive(Debug, Clone, PartialEq)]
pub struct Tenfold {
    /// The key.
    pub key: &'static str,
    /// The machine's name.
    pub machine: String,
    /// What is typed, kW.
    pub kw: f64,
    /// What is ordinary, least and greatest, kW.
    pub ordinary_kw: (f64, f64),
    /// Whether it is told in watts and kilowatts in any job: draws are, heat goes by the job's units.
    pub draw: bool,
}

impl Tenfold {
    /// What may have been meant (kW): a digit more or less, or a thousand times, if just that is ordinary.
    ///
    /// ```
    /// use winterledger::comparison::tenfold::Tenfold;
    /// let strips = |kw| Tenfold { key: "stages", machine: "strips".into(), kw, ordinary_kw: (0.5, 30.0), draw: true };
    /// assert_eq!(strips(50.0).meant_kw(), Some(5.0));
    /// assert_eq!(strips(0.005).meant_kw(), Some(5.0));
    /// assert_eq!(strips(0.00001).meant_kw(), None);
    /// ```
    pub fn meant_kw(&self) -> Option<f64> {
        let times = |times: f64| if self.kw < self.ordinary_kw.0 { self.kw * times } else { self.kw / times };
        let (low, high) = self.ordinary_kw;
        [10.0, 1000.0].map(times).into_iter().find(|kw| (low..=high).contains(kw))
    }
}

/// Btu/h: what a burner takes at full fire, common practice for houses.
mod burners {
    pub(super) const FURNACE: (f64, f64) = (15_000.0, 400_000.0);
    pub(super) const BOILER: (f64, f64) = (15_000.0, 500_000.0);
    pub(super) const WALL_HEATER: (f64, f64) = (4_000.0, 100_000.0);
    pub(super) const STOVE: (f64, f64) = (6_000.0, 200_000.0);
    pub(super) const PILOT: (f64, f64) = (200.0, 3_000.0);
    /// From 1.4 kW below a sink to 199,900 Btu/h, the most of a house's tankless one (42 USC 6291 (27), from memory).
    pub(super) const WATER_HEATER: (f64, f64) = (4_700.0, 210_000.0);
}

/// kW: electricity, common practice for houses.
mod draws {
    pub(super) const DUCTED_STAGE: (f64, f64) = (0.5, 30.0);
    pub(super) const ROOM_STAGE: (f64, f64) = (0.1, 30.0);
    pub(super) const TEMPERING: (f64, f64) = (0.5, 30.0);
    pub(super) const BOILER_PUMPS: (f64, f64) = (0.01, 0.8);
    /// For each kW of the greatest output: 60 to 200 W for each ton of a closed loop (common practice) are 17 to 57, a
    /// well's pump twice that.
    pub(super) const LOOP_PUMP_PER_KW: (f64, f64) = (0.002, 0.15);
    pub(super) const PELLET_MOTORS: (f64, f64) = (0.01, 1.0);
    pub(super) const PAN_HEATER: (f64, f64) = (0.01, 1.0);
    /// Drawn for nothing all year, so also what a slip makes dear; 0 is left alone.
    pub(super) const STANDBY: (f64, f64) = (0.0, 0.2);
    /// For each kW of heat: a burner's blower; some 100 to 600 W for 1,000 cfm and 50 °F of rise are 6 to 38.
    pub(super) const BLOWER_PER_KW: (f64, f64) = (0.004, 0.12);
    /// For each kW of the greatest output: a fan indoors, from a quiet head to an old air handler.
    pub(super) const FAN_PER_KW: (f64, f64) = (0.002, 0.2);
}

/// Btu/h: the greatest output of a house's heat pump or air conditioner, from a small head to ten tons.
pub(super) const OUTPUT: (f64, f64) = (3_000.0, 150_000.0);
/// The same of the outdoor unit of several heads.
const UNIT_OUTPUT: (f64, f64) = (6_000.0, 200_000.0);

/// Every such power of the job's machines, in its order.
pub fn tenfolds(job: &Job) -> Vec<Tenfold> {
    job.equipment.iter().flat_map(of_machine).collect()
}

fn of_machine(machine: &EquipmentSection) -> Vec<Tenfold> {
    let asks = Asks { machine: &machine.name };
    let found = match &machine.kind.value {
        MachineSection::HeatPump(pump) => of_heat_pump(&asks, pump),
        MachineSection::AirConditioner(cooler) => of_air_conditioner(&asks, cooler),
        MachineSection::Furnace(furnace) => {
            let input = asks.heat("input", Some(&furnace.input), burners::FURNACE);
            let output = furnace.input.base() * furnace.afue.value;
            // Beside a slip of the input the blower would be odd too.
            let blower = furnace.blower.as_ref().filter(|_| input.is_none());
            let blower = asks.draw("blower", blower, per_kw(draws::BLOWER_PER_KW, output));
            vec![input, blower, asks.draw("standby", furnace.standby.as_ref(), draws::STANDBY)]
        }
        MachineSection::Boiler(boiler) => vec![
            asks.heat("input", Some(&boiler.input), burners::BOILER),
            asks.draw("pump", boiler.pump.as_ref(), draws::BOILER_PUMPS),
            asks.draw("standby", boiler.standby.as_ref(), draws::STANDBY),
        ],
        MachineSection::WallHeater(heater) => vec![
            asks.heat("input", Some(&heater.input), burners::WALL_HEATER),
            asks.heat("pilot", heater.pilot.as_ref(), burners::PILOT),
            asks.draw("standby", heater.standby.as_ref(), draws::STANDBY),
        ],
        MachineSection::WoodStove(stove) | MachineSection::PelletStove(stove) => vec![
            asks.heat("input", Some(&stove.input), burners::STOVE),
            asks.draw("power", stove.power.as_ref(), draws::PELLET_MOTORS),
        ],
        MachineSection::Resistance(strips) => {
            let ordinary = if strips.ducted.value { draws::DUCTED_STAGE } else { draws::ROOM_STAGE };
            strips.stages.iter().map(|stage| asks.draw("stages", Some(stage), ordinary)).collect()
        }
        MachineSection::OutdoorUnit(unit) => {
            let cooling = unit.cooling.as_deref();
            let cooling = cooling.and_then(|rows| unit_rows(&asks, "cooling", rows));
            vec![unit_rows(&asks, "heating", &unit.heating), cooling]
        }
        MachineSection::WaterHeater(heater) => {
            vec![asks.heat("input", heater.input.as_ref(), burners::WATER_HEATER)]
        }
        MachineSection::Dryer(_) | MachineSection::Range(_) => Vec::new(),
    };
    let mut found: Vec<_> = found.into_iter().flatten().collect();
    // Five stages of one slip are one question.
    found.dedup();
    found
}

fn of_heat_pump(asks: &Asks<'_>, pump: &HeatPumpSection) -> Vec<Option<Tenfold>> {
    let tempering = pump.defrost.aux.as_ref().and_then(|aux| match aux.value {
        DefrostAuxSection::Strips(power) => Some(Typed::new(power, aux.span.clone())),
        DefrostAuxSection::None | DefrostAuxSection::Furnace => None,
    });
    let loop_pump = pump.ground.as_ref().and_then(|ground| ground.loop_pump.as_ref());
    let greatest_kw = ordinary_output(&pump.heating);
    let cooling = pump.cooling.as_deref();
    let fan = |output| asks.draw("indoor_fan", pump.indoor_fan.as_ref(), per_kw(draws::FAN_PER_KW, output));
    let mut found = of_map(asks, &pump.heating, "heating");
    found.extend([
        cooling.and_then(|rows| rows_of(asks, "cooling", rows)),
        greatest_kw.and_then(fan),
        asks.draw("standby", pump.standby.as_ref(), draws::STANDBY),
        asks.draw("pan_heater", pump.pan_heater.as_ref(), draws::PAN_HEATER),
        asks.draw("defrost_aux", tempering.as_ref(), draws::TEMPERING),
        greatest_kw
            .and_then(|output| asks.draw("loop_pump", loop_pump, per_kw(draws::LOOP_PUMP_PER_KW, output))),
    ]);
    found
}

fn of_air_conditioner(asks: &Asks<'_>, cooler: &AirConditionerSection) -> Vec<Option<Tenfold>> {
    let greatest_kw = ordinary_output(&cooler.cooling);
    let fan = |output| asks.draw("indoor_fan", cooler.indoor_fan.as_ref(), per_kw(draws::FAN_PER_KW, output));
    let mut found = of_map(asks, &cooler.cooling, "cooling");
    found.extend([greatest_kw.and_then(fan), asks.draw("standby", cooler.standby.as_ref(), draws::STANDBY)]);
    found
}

/// What rows or a nameplate give; built-in tables have no slips.
fn of_map(asks: &Asks<'_>, map: &MapSection, key: &'static str) -> Vec<Option<Tenfold>> {
    match map {
        MapSection::Rows(rows) => vec![rows_of(asks, key, rows)],
        MapSection::Nameplate(plate) => {
            let heating = plate.heating.as_ref().map(|plate| &plate.capacity_47);
            let cooling = plate.cooling.as_ref().map(|plate| &plate.cooling_capacity_95);
            vec![asks.heat("capacity_47", heating, OUTPUT), asks.heat("cooling_capacity_95", cooling, OUTPUT)]
        }
        MapSection::Table(_) => Vec::new(),
    }
}

/// Asks about the greatest output of all rows; what one row does among the others is asked elsewhere.
fn rows_of(asks: &Asks<'_>, key: &'static str, rows: &[RowSection]) -> Option<Tenfold> {
    asks.heat_kw(key, greatest_kw(rows)?, OUTPUT)
}

fn unit_rows(asks: &Asks<'_>, key: &'static str, rows: &[UnitRowSection]) -> Option<Tenfold> {
    let greatest_kw = rows.iter().map(|row| row.greatest.base()).max_by(f64::total_cmp)?;
    asks.heat_kw(key, greatest_kw, UNIT_OUTPUT)
}

/// The greatest output of rows by which a fan can be judged: no slip itself.
fn ordinary_output(map: &MapSection) -> Option<f64> {
    let MapSection::Rows(rows) = map else { return None };
    greatest_kw(rows).filter(|kw| (btu_to_kwh(OUTPUT.0)..=btu_to_kwh(OUTPUT.1)).contains(kw))
}

fn greatest_kw(rows: &[RowSection]) -> Option<f64> {
    rows.iter().map(|row| row.greatest.capacity.base()).max_by(f64::total_cmp)
}

/// An ordinary draw for a kW of output as one for so many.
fn per_kw((low, high): (f64, f64), output_kw: f64) -> (f64, f64) {
    (low * output_kw, high * output_kw)
}

/// Makes the questions about one machine.
struct Asks<'a> {
    machine: &'a str,
}

impl Asks<'_> {
    fn heat(&self, key: &'static str, typed: Option<&Typed<Power>>, btu_h: (f64, f64)) -> Option<Tenfold> {
        self.heat_kw(key, typed?.base(), btu_h)
    }

    fn heat_kw(&self, key: &'static str, kw: f64, (low, high): (f64, f64)) -> Option<Tenfold> {
        self.ask(key, kw, btu_to_kwh(low)..=btu_to_kwh(high), false)
    }

    /// A draw of 0 says that there is none.
    fn draw(&self, key: &'static str, typed: Option<&Typed<Power>>, kw: (f64, f64)) -> Option<Tenfold> {
        let typed = typed?.base();
        if typed == 0.0 { None } else { self.ask(key, typed, kw.0..=kw.1, true) }
    }

    fn ask(&self, key: &'static str, kw: f64, ordinary: RangeInclusive<f64>, draw: bool) -> Option<Tenfold> {
        let ordinary_kw = (*ordinary.start(), *ordinary.end());
        let machine = self.machine.to_owned();
        (!ordinary.contains(&kw)).then_some(Tenfold { key, machine, kw, ordinary_kw, draw })
    }
}

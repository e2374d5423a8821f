//! The job's `[[equipment]]` into machines, all problems together, every default noted.
//!
//! Start at [`machines`].

mod modes;
mod loops;
mod burners;
mod plates;
mod household;

pub use household::household_machines;

use super::combustion::altitude_factor;
use super::ground::Surface;
use super::machine::{Cooling, EXTRAPOLATION_K, Heating, Machine, MachineKind};
use super::map::{MapRow, PerformanceMap, Point};
use super::origin::{Origin, RowsOrigin};
use crate::fuel::{FuelId, Fuels};
use crate::job::{
    AirConditionerSection, CapacityBasis, EquipmentSection, HeatPumpSection, Job, MachineSection, MapSection,
    OutdoorUnitSection, RowSection, Typed, UnitRowSection, Units,
};
use crate::problem::Problems;
use crate::sources::{Assumptions, Source};
use crate::units::{Power, Quantity, celsius_to_fahrenheit};
use modes::{Mode, RowsFor, TurnDown};
pub use plates::{MachineBand, bands};

const PAN_HEATER_BELOW_C: f64 = 0.0;

/// What the place does to machines.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surroundings {
    /// The site's height, m; without it burners are not derated and that is noted.
    pub elevation_m: Option<f64>,
    /// The wave of the ground's surface, where the weather has months.
    pub surface: Option<Surface>,
}

/// Builds every machine of the job that heats or cools rooms, in its order.
///
/// # Errors
/// Everything that does not fit, with its place in the job.
pub fn machines(
    job: &Job,
    fuels: &Fuels,
    site: Surroundings,
    assumptions: &mut Assumptions,
) -> Result<Vec<Machine>, Problems> {
    let Surroundings { elevation_m, surface } = site;
    let mut build = Builder { job, fuels, elevation_m, surface, assumptions, problems: Vec::new() };
    let mut machines: Vec<_> = job.equipment.iter().filter_map(|section| build.machine(section)).collect();
    hang_heads(job, &mut machines);
    build.note_unbound_cooling(&machines);
    build.note_no_cut_out(&machines);
    if build.problems.is_empty() { Ok(machines) } else { Err(build.problems) }
}

/// Hangs every head on its outdoor unit, now that all have their places.
fn hang_heads(job: &Job, machines: &mut [Machine]) {
    let names: Vec<String> = machines.iter().map(|m| m.name.clone()).collect();
    for machine in machines {
        let section = job.machine(&machine.name).map(|section| &section.kind.value);
        if let Some(MachineSection::HeatPump(head)) = section {
            let unit = head.outdoor_unit.as_ref();
            machine.outdoor_unit = unit.and_then(|unit| names.iter().position(|name| *name == unit.value));
        }
    }
}

struct Builder<'a> {
    job: &'a Job,
    fuels: &'a Fuels,
    elevation_m: Option<f64>,
    surface: Option<Surface>,
    assumptions: &'a mut Assumptions,
    problems: Problems,
}

impl Builder<'_> {
    fn machine(&mut self, section: &EquipmentSection) -> Option<Machine> {
        let name = section.name.value.as_str();
        match &section.kind.value {
            MachineSection::HeatPump(s) => self.heat_pump(name, s),
            MachineSection::AirConditioner(s) => self.air_conditioner(name, s),
            MachineSection::Furnace(s) => self.furnace(name, s),
            MachineSection::Boiler(s) => self.boiler(name, s),
            MachineSection::WallHeater(s) => self.wall_heater(name, s),
            MachineSection::WoodStove(s) => self.stove(name, s, MachineKind::WoodStove),
            MachineSection::PelletStove(s) => self.stove(name, s, MachineKind::PelletStove),
            MachineSection::Resistance(s) => Some(burners::resistance(name, s)),
            MachineSection::WaterHeater(_) | MachineSection::Dryer(_) | MachineSection::Range(_) => None,
            MachineSection::OutdoorUnit(s) => outdoor_unit(name, s),
        }
    }

    fn heat_pump(&mut self, name: &str, s: &HeatPumpSection) -> Option<Machine> {
        let factor = self.pump_altitude(name, s);
        let fan_kw = fan_left_out(s.power_includes_indoor_fan.as_ref(), s.indoor_fan.as_ref());
        let turn_down = TurnDown {
            name,
            speed: s.speed.as_deref().copied(),
            cycling_loss: s.cycling_loss.as_deref().copied(),
            rows_for: RowsFor::Heating,
            rows: None,
        };
        let chilling = TurnDown { rows_for: RowsFor::Cooling, ..turn_down };
        let mut derived_cooling = None;
        let heating = match &s.heating {
            MapSection::Rows(rows) => {
                let steady = s.capacity_basis.as_deref() == Some(&CapacityBasis::Steady);
                let mode = self.typed_mode(rows, fan_kw, turn_down)?;
                Mode { origin: RowsOrigin { charged: steady, ..mode.origin }, ..mode }
            }
            MapSection::Table(table) => self.table_mode(table, fan_kw, turn_down)?,
            MapSection::Nameplate(plate) => {
                let derived = self.derived(name, plate)?;
                let line = self.job.line(&plate.span);
                derived_cooling = derived.cooling.map(|map| self.derived_mode(map, line, chilling));
                self.derived_mode(derived.heating?, line, turn_down)
            }
        };
        let least = |row: &RowSection| row.least.is_some();
        let heating_tells = !matches!(&s.heating, MapSection::Rows(rows) if !rows.value.iter().any(least));
        let of_cooling = TurnDown { rows: heating_tells.then_some("cooling"), ..chilling };
        let cooling = match &s.cooling {
            Some(rows) => Some(self.typed_mode(rows, fan_kw, of_cooling)?),
            None => derived_cooling,
        };
        let cooling = cooling.map(|mode| self.cooling(name, mode, factor, s.sensible_heat_ratio.as_ref()));
        let (ground, pump_kw) = match &s.ground {
            Some(section) => self.ground_loop(name, section)?,
            None => (None, 0.0),
        };
        let (cooling, cooling_origin) = cooling.unzip();
        let cooling = cooling.map(|c: Cooling| Cooling { fan_kw: c.fan_kw + pump_kw, ..c });
        let origin = RowsOrigin { altitude: factor, fan_kw: heating.fan_kw, ..heating.origin };
        let below = s.pan_heater_below.as_deref().map(|t| t.base());
        let pan_heater = s.pan_heater.as_deref().map(|p| (p.base(), below.unwrap_or(PAN_HEATER_BELOW_C)));
        Some(Machine {
            ducted: s.ducted.value,
            standby_kw: self.standby(name, s.standby.as_ref()),
            heating: Some(Heating {
                cycling_loss: heating.cycling_loss,
                cut_out_c: s.cut_out.as_deref().map(|t| t.base()),
                cut_on_c: s.cut_on.as_deref().map(|t| t.base()),
                fan_kw: heating.fan_kw + pump_kw,
                pan_heater,
                ..Heating::of(origin.map())
            }),
            cooling,
            ground,
            origin: Origin { heating: Some(origin), cooling: cooling_origin, burner: None },
            ..Machine::new(name, MachineKind::HeatPump, FuelId::ELECTRICITY)
        })
    }

    fn air_conditioner(&mut self, name: &str, s: &AirConditionerSection) -> Option<Machine> {
        let factor = self.altitude(name, s.altitude_factor.as_ref(), None);
        let fan_kw = fan_left_out(s.power_includes_indoor_fan.as_ref(), s.indoor_fan.as_ref());
        let turn_down = TurnDown {
            name,
            speed: s.speed.as_deref().copied(),
            cycling_loss: s.cycling_loss.as_deref().copied(),
            rows_for: RowsFor::Cooling,
            rows: None,
        };
        let mode = match &s.cooling {
            MapSection::Rows(rows) => self.typed_mode(rows, fan_kw, turn_down)?,
            MapSection::Table(table) => {
                let what = format!("no built-in table '{}' has cooling rows", table.value);
                let problem = self.job.problem(&table.span, format!("equipment.{name}.table"), what);
                self.problems.push(problem.help("Type the machine's own rows under 'cooling'"));
                return None;
            }
            MapSection::Nameplate(plate) => {
                let derived = self.derived(name, plate)?.cooling?;
                self.derived_mode(derived, self.job.line(&plate.span), turn_down)
            }
        };
        let (cooling, origin) = self.cooling(name, mode, factor, s.sensible_heat_ratio.as_ref());
        Some(Machine {
            ducted: s.ducted.value,
            standby_kw: self.standby(name, s.standby.as_ref()),
            cooling: Some(cooling),
            origin: Origin { cooling: Some(origin), ..Origin::default() },
            ..Machine::new(name, MachineKind::AirConditioner, FuelId::ELECTRICITY)
        })
    }

    fn pump_altitude(&mut self, name: &str, s: &HeatPumpSection) -> f64 {
        match &s.ground {
            // The ground gives the same on a mountain.
            Some(_) => 1.0,
            None => self.altitude(name, s.altitude_factor.as_ref(), s.altitude_factor_source.as_ref()),
        }
    }

    fn altitude(&mut self, name: &str, given: Option<&Typed<f64>>, source: Option<&Typed<String>>) -> f64 {
        let key = format!("equipment.{name}.altitude_factor");
        let high = self.elevation_m.is_some_and(|m| altitude_factor(m) < 1.0);
        match (given, source) {
            (None, _) if high => {
                let why = "thin air is not counted for heat pumps and air conditioners; ask the maker";
                self.assumptions.note(key, "1.0", Source::CommonPractice(why.into()));
            }
            (Some(factor), Some(source)) => {
                self.assumptions.note(key, factor.value.to_string(), Source::Job(Some(source.value.clone())));
            }
            _ => {}
        }
        given.map_or(1.0, |f| f.value)
    }

    /// Tells of outdoor units whose heads cool, of which nobody says what cooling they give together.
    fn note_unbound_cooling(&mut self, machines: &[Machine]) {
        for (place, unit) in machines.iter().enumerate().filter(|(_, unit)| unit.cooling.is_none()) {
            if machines.iter().any(|head| head.outdoor_unit == Some(place) && head.cooling.is_some()) {
                let key = format!("equipment.{}.cooling", unit.name);
                let why =
                    "the job gives the unit no cooling rows, so its heads can cool with all of their own";
                self.assumptions.note(key, "not bound", Source::CommonPractice(why.into()));
            }
        }
    }

    /// Tells where heat pumps and outdoor units stop of which nobody says it.
    fn note_no_cut_out(&mut self, machines: &[Machine]) {
        let outdoors = |m: &&Machine| {
            matches!(m.kind, MachineKind::HeatPump | MachineKind::OutdoorUnit) && m.ground.is_none()
        };
        for machine in machines.iter().filter(outdoors) {
            let Some(heating) = machine.heating.as_ref().filter(|heating| heating.cut_out_c.is_none()) else {
                continue;
            };
            let coldest_c = heating.map.coldest_c();
            let (value, below) = match self.job.job.units.value {
                Units::Us => {
                    let off_f = celsius_to_fahrenheit(coldest_c - EXTRAPOLATION_K);
                    (format!("{off_f:.0} degF"), format!("{:.0} \u{b0}F", 1.8 * EXTRAPOLATION_K))
                }
                Units::Si => {
                    (format!("{:.1} degC", coldest_c - EXTRAPOLATION_K), format!("{EXTRAPOLATION_K:.0} K"))
                }
            };
            let why = format!(
                "off from {below} colder than its coldest row, this program\u{2019}s own choice; ask the maker"
            );
            self.assumptions.note(format!("equipment.{}.cut_out", machine.name), value, Source::Derived(why));
        }
    }

    fn standby(&mut self, name: &str, given: Option<&Typed<Power>>) -> f64 {
        let key = format!("equipment.{name}.standby");
        self.assumptions.or_default(given.map(|g| g.base()), key, 0.0, "0 W", || {
            Source::CommonPractice("the job gives no draw between runs, so none is counted".into())
        })
    }
}

/// Maps of capacities alone: heads draw, not their outdoor unit.
fn outdoor_unit(name: &str, s: &OutdoorUnitSection) -> Option<Machine> {
    let row = |row: &UnitRowSection| {
        let all = Point { capacity_kw: row.greatest.base(), power_kw: 0.0 };
        MapRow { outdoor_c: row.outdoor.base(), least: all, rated: all, greatest: all }
    };
    let map_of =
        |rows: &Typed<Vec<UnitRowSection>>| PerformanceMap::new(rows.value.iter().map(row).collect());
    let map = map_of(&s.heating)?;
    let map = if s.capacity_basis.value == CapacityBasis::Steady { map.charged_for_frost() } else { map };
    let cut_out_c = s.cut_out.as_deref().map(|t| t.base());
    Some(Machine {
        heating: Some(Heating { cut_out_c, ..Heating::of(map) }),
        cooling: s.cooling.as_ref().and_then(map_of).map(Cooling::of),
        ..Machine::new(name, MachineKind::OutdoorUnit, FuelId::ELECTRICITY)
    })
}

/// The indoor fan's draw, kW, where the typed power leaves it out.
fn fan_left_out(included: Option<&Typed<bool>>, fan: Option<&Typed<Power>>) -> f64 {
    match (included.map(|typed| typed.value), fan) {
        (Some(false), Some(fan)) => fan.base(),
        _ => 0.0,
    }
}

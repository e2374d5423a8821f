//! The job's `[[equipment]]` into machines, all problems together, every default noted.
//!
//! Start at [`machines`].

use super::combustion::{altitude_factor, furnace_row};
use super::machine::{Cooling, Heating, Machine, MachineKind};
use super::map::{MapRow, PerformanceMap, Point};
use super::tables;
use crate::fuel::{FuelId, Fuels};
use crate::job::{
    AirConditionerSection, CapacityBasis, DrawSection, EquipmentSection, FurnaceSection, HeatPumpSection,
    Job, MachineSection, MapSection, PointSection, ResistanceSection, RowSection, Speed, Typed,
};
use crate::problem::Problems;
use crate::sources::{Assumptions, Source};
use crate::units::{Power, Quantity, Temperature};

/// The loss of efficiency on cycling where the job gives none: 0.25.
pub const DEFAULT_CYCLING_LOSS: f64 = 0.25;
const DEFAULT_SENSIBLE_HEAT_RATIO: f64 = 0.75;
const PAN_HEATER_BELOW_C: f64 = 0.0;

/// Builds every machine of the job, in its order.
///
/// `elevation_m` is the site's height; without it burners are not derated and that is noted.
///
/// # Errors
/// Everything that does not fit, with its place in the job.
pub fn machines(
    job: &Job,
    fuels: &Fuels,
    elevation_m: Option<f64>,
    assumptions: &mut Assumptions,
) -> Result<Vec<Machine>, Problems> {
    let mut build = Builder { job, fuels, elevation_m, assumptions, problems: Vec::new() };
    let machines: Vec<_> = job.equipment.iter().filter_map(|section| build.machine(section)).collect();
    if build.problems.is_empty() { Ok(machines) } else { Err(build.problems) }
}

struct Builder<'a> {
    job: &'a Job,
    fuels: &'a Fuels,
    elevation_m: Option<f64>,
    assumptions: &'a mut Assumptions,
    problems: Problems,
}

/// A map, the fan that its power leaves out, and the loss on cycling below its least output.
struct Mode {
    map: PerformanceMap,
    fan_kw: f64,
    cycling_loss: f64,
}

/// What the job says of how a machine turns down.
#[derive(Clone, Copy)]
struct TurnDown<'a> {
    name: &'a str,
    speed: Option<Speed>,
    cycling_loss: Option<f64>,
}

impl Builder<'_> {
    fn machine(&mut self, section: &EquipmentSection) -> Option<Machine> {
        let name = section.name.value.as_str();
        match &section.kind.value {
            MachineSection::HeatPump(s) => self.heat_pump(name, s),
            MachineSection::AirConditioner(s) => self.air_conditioner(name, s),
            MachineSection::Furnace(s) => self.furnace(name, s),
            MachineSection::Resistance(s) => Some(resistance(name, s)),
        }
    }

    fn heat_pump(&mut self, name: &str, s: &HeatPumpSection) -> Option<Machine> {
        let factor = self.altitude(name, s.altitude_factor.as_ref(), s.altitude_factor_source.as_ref());
        let fan_kw = fan_left_out(s.power_includes_indoor_fan.as_ref(), s.indoor_fan.as_ref());
        let turn_down = TurnDown {
            name,
            speed: s.speed.as_deref().copied(),
            cycling_loss: s.cycling_loss.as_deref().copied(),
        };
        let heating = match &s.heating {
            MapSection::Rows(rows) => {
                let steady = s.capacity_basis.as_deref() == Some(&CapacityBasis::Steady);
                let mode = self.typed_mode(rows, fan_kw, turn_down)?;
                if steady { Mode { map: mode.map.charged_for_frost(), ..mode } } else { mode }
            }
            MapSection::Table(table) => self.table_mode(table, fan_kw, turn_down)?,
        };
        let cooling = match &s.cooling {
            Some(rows) => Some(self.typed_mode(rows, fan_kw, turn_down)?),
            None => None,
        };
        let cooling = cooling.map(|mode| self.cooling(name, mode, factor, s.sensible_heat_ratio.as_ref()));
        let below = s.pan_heater_below.as_deref().map(|t| t.base());
        let pan_heater = s.pan_heater.as_deref().map(|p| (p.base(), below.unwrap_or(PAN_HEATER_BELOW_C)));
        Some(Machine {
            name: name.to_owned(),
            kind: MachineKind::HeatPump,
            fuel: FuelId::ELECTRICITY,
            ducted: s.ducted.value,
            standby_kw: self.standby(name, s.standby.as_ref()),
            stages_kw: Vec::new(),
            heating: Some(Heating {
                map: heating.map.map_rows(|r| r.times(factor, 1.0).with_fan_warmth(heating.fan_kw)),
                cycling_loss: heating.cycling_loss,
                cut_out_c: s.cut_out.as_deref().map(|t| t.base()),
                cut_on_c: s.cut_on.as_deref().map(|t| t.base()),
                lockout_above_c: None,
                fan_kw: heating.fan_kw,
                pan_heater,
            }),
            cooling,
        })
    }

    fn typed_mode(
        &mut self,
        rows: &Typed<Vec<RowSection>>,
        fan_kw: f64,
        turn_down: TurnDown<'_>,
    ) -> Option<Mode> {
        let map = PerformanceMap::new(rows.value.iter().map(typed_row).collect())?;
        let knows_least = rows.value.iter().any(|r| r.least.is_some());
        let cycling_loss = self.cycling_loss(turn_down, knows_least);
        Some(Mode { map, fan_kw, cycling_loss })
    }

    fn table_mode(&mut self, table: &Typed<String>, fan_kw: f64, turn_down: TurnDown<'_>) -> Option<Mode> {
        let key = format!("equipment.{}.table", turn_down.name);
        let opened = tables::open(&table.value).map_err(|p| {
            let mut placed = self.job.problem(&table.span, key.clone(), p.what);
            (placed.allowed, placed.help) = (p.allowed, p.help);
            self.problems.push(placed);
        });
        let opened = opened.ok()?;
        let Some(map) = opened.heating else {
            self.problems.push(self.job.problem(&table.span, key, "this table has no heating rows"));
            return None;
        };
        self.assumptions.note(key, table.value.clone(), Source::CommonPractice(opened.source));
        // The table's own word on speed holds; every table of a variable machine gives a least output.
        let turn_down = TurnDown { speed: opened.one_speed.then_some(Speed::One), ..turn_down };
        Some(Mode {
            map: if opened.with_defrost { map } else { map.charged_for_frost() },
            fan_kw: if opened.includes_fan { 0.0 } else { fan_kw },
            cycling_loss: self.cycling_loss(turn_down, true),
        })
    }

    fn air_conditioner(&mut self, name: &str, s: &AirConditionerSection) -> Option<Machine> {
        let factor = self.altitude(name, s.altitude_factor.as_ref(), None);
        let fan_kw = fan_left_out(s.power_includes_indoor_fan.as_ref(), s.indoor_fan.as_ref());
        let turn_down = TurnDown {
            name,
            speed: s.speed.as_deref().copied(),
            cycling_loss: s.cycling_loss.as_deref().copied(),
        };
        let mode = match &s.cooling {
            MapSection::Rows(rows) => self.typed_mode(rows, fan_kw, turn_down)?,
            MapSection::Table(table) => {
                let what = format!("no built-in table '{}' has cooling rows", table.value);
                let problem = self.job.problem(&table.span, format!("equipment.{name}.table"), what);
                self.problems.push(problem.help("Type the machine's own rows under 'cooling'"));
                return None;
            }
        };
        let cooling = self.cooling(name, mode, factor, s.sensible_heat_ratio.as_ref());
        Some(Machine {
            name: name.to_owned(),
            kind: MachineKind::AirConditioner,
            fuel: FuelId::ELECTRICITY,
            ducted: s.ducted.value,
            standby_kw: self.standby(name, s.standby.as_ref()),
            stages_kw: Vec::new(),
            heating: None,
            cooling: Some(cooling),
        })
    }

    fn furnace(&mut self, name: &str, s: &FurnaceSection) -> Option<Machine> {
        let fuel = self.fuel(name, &s.fuel)?;
        let factor = match &s.altitude_factor {
            Some(given) => given.value,
            None => self.burner_altitude(name, &s.fuel.value),
        };
        let key = format!("equipment.{name}.blower");
        let blower =
            self.assumptions.or_default(s.blower.as_deref().map(|p| p.base()), key, 0.5, "500 W", || {
                Source::CommonPractice("an ordinary furnace blower".into())
            });
        let turndown = s.turndown.as_deref().copied().unwrap_or(1.0);
        let row = furnace_row(s.input.base() * factor, s.afue.value, blower, turndown);
        Some(Machine {
            name: name.to_owned(),
            kind: MachineKind::Furnace,
            fuel,
            ducted: s.ducted.as_deref().copied().unwrap_or(true),
            standby_kw: s.standby.as_deref().map_or(0.0, |p| p.base()),
            stages_kw: Vec::new(),
            heating: Some(unlimited(row, blower)?),
            cooling: None,
        })
    }

    fn fuel(&mut self, name: &str, id: &Typed<String>) -> Option<FuelId> {
        let found = self.fuels.find(&id.value).filter(|f| *f != FuelId::ELECTRICITY);
        if found.is_none() {
            let burnt: Vec<_> = self.fuels.iter().skip(1).map(|(_, f)| f.id.as_str()).collect();
            let what = format!("a furnace cannot burn '{}'", id.value);
            let problem = self.job.problem(&id.span, format!("equipment.{name}.fuel"), what);
            self.problems.push(problem.allowed(burnt.join(", ")).help("Name one of these fuels"));
        }
        found
    }

    fn burner_altitude(&mut self, name: &str, fuel: &str) -> f64 {
        // The code's derating is for gas; oil burners are set up on site.
        if !matches!(fuel, "propane" | "natural_gas") {
            return 1.0;
        }
        let (factor, why) = match self.elevation_m {
            Some(m) => (altitude_factor(m), "4 % a thousand feet above 2,000 ft, fuel gas code rule"),
            None => (1.0, "the elevation is not known, so thin air is not counted"),
        };
        if factor < 1.0 || self.elevation_m.is_none() {
            let key = format!("equipment.{name}.altitude_factor");
            self.assumptions.note(key, format!("{factor:.2}"), Source::CommonPractice(why.into()));
        }
        factor
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

    /// The loss on cycling below the least output; none where a machine turns down by so much that
    /// nobody says how far.
    fn cycling_loss(&mut self, turn_down: TurnDown<'_>, knows_least: bool) -> f64 {
        let name = turn_down.name;
        if !knows_least && turn_down.speed != Some(Speed::One) {
            if turn_down.speed.is_none() {
                let why = "no least output is given: it follows the load at its greatest output's COP, \
                           without cycling";
                let key = format!("equipment.{name}.speed");
                self.assumptions.note(key, "variable", Source::CommonPractice(why.into()));
            }
            return 0.0;
        }
        let key = format!("equipment.{name}.cycling_loss");
        let default = DEFAULT_CYCLING_LOSS;
        self.assumptions.or_default(turn_down.cycling_loss, key, default, default.to_string(), || {
            Source::Published("10 CFR 430 Subpart B Appendix M1, default degradation coefficient".into())
        })
    }

    fn standby(&mut self, name: &str, given: Option<&Typed<Power>>) -> f64 {
        let key = format!("equipment.{name}.standby");
        self.assumptions.or_default(given.map(|g| g.base()), key, 0.0, "0 W", || {
            Source::CommonPractice("the job gives no draw between runs, so none is counted".into())
        })
    }

    fn cooling(&mut self, name: &str, mode: Mode, factor: f64, ratio: Option<&Typed<f64>>) -> Cooling {
        let key = format!("equipment.{name}.sensible_heat_ratio");
        let default = DEFAULT_SENSIBLE_HEAT_RATIO;
        let sensible_heat_ratio =
            self.assumptions.or_default(ratio.map(|r| r.value), key, default, default.to_string(), || {
                Source::CommonPractice("share of cooling that lowers the temperature".into())
            });
        Cooling {
            map: mode.map.map_rows(|r| r.times(factor, 1.0).with_fan_warmth(-mode.fan_kw)),
            cycling_loss: mode.cycling_loss,
            sensible_heat_ratio,
            fan_kw: mode.fan_kw,
        }
    }
}

fn resistance(name: &str, s: &ResistanceSection) -> Machine {
    let stages_kw: Vec<f64> = s.stages.value.iter().map(|stage| stage.base()).collect();
    let all = stages_kw.iter().sum();
    let point = Point { capacity_kw: all, power_kw: all };
    let row = MapRow { outdoor_c: 0.0, least: point, rated: point, greatest: point };
    let heating = unlimited(row, 0.0).map(|h| Heating {
        lockout_above_c: s.lockout_above.as_deref().map(|t: &Temperature| t.base()),
        ..h
    });
    Machine {
        name: name.to_owned(),
        kind: MachineKind::Resistance,
        fuel: FuelId::ELECTRICITY,
        ducted: s.ducted.value,
        standby_kw: 0.0,
        stages_kw,
        heating,
        cooling: None,
    }
}

fn unlimited(row: MapRow, fan_kw: f64) -> Option<Heating> {
    let map = PerformanceMap::new(vec![row])?;
    Some(Heating {
        map,
        cycling_loss: 0.0,
        cut_out_c: None,
        cut_on_c: None,
        lockout_above_c: None,
        fan_kw,
        pan_heater: None,
    })
}

/// The indoor fan's draw, kW, where the typed power leaves it out.
fn fan_left_out(included: Option<&Typed<bool>>, fan: Option<&Typed<Power>>) -> f64 {
    match (included.map(|typed| typed.value), fan) {
        (Some(false), Some(fan)) => fan.base(),
        _ => 0.0,
    }
}

fn typed_row(row: &RowSection) -> MapRow {
    let greatest = typed_point(&row.greatest);
    let rated = row.rated.as_ref().map(typed_point);
    let least = row.least.as_ref().map(typed_point).or(rated).unwrap_or(greatest);
    MapRow { outdoor_c: row.outdoor.base(), least, rated: rated.unwrap_or(greatest), greatest }
}

fn typed_point(point: &PointSection) -> Point {
    let capacity_kw = point.capacity.base();
    let power_kw = match point.draw.value {
        DrawSection::Cop(cop) => capacity_kw / cop,
        DrawSection::Power(power) => power.base(),
    };
    Point { capacity_kw, power_kw }
}

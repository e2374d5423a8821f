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
    Job, MachineSection, MapSection, PointSection, ResistanceSection, RowSection, Typed,
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

/// A map, and the fan that its power leaves out.
struct MapAndFan {
    map: PerformanceMap,
    fan_kw: f64,
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

    fn key(&self, name: &str, key: &str) -> String {
        format!("equipment.{name}.{key}")
    }

    fn heat_pump(&mut self, name: &str, s: &HeatPumpSection) -> Option<Machine> {
        let factor = self.altitude(name, s.altitude_factor.as_ref());
        let heating = self.heat_pump_heating(name, s, factor)?;
        let cooling = match &s.cooling {
            Some(rows) => {
                let includes = s.power_includes_indoor_fan.as_deref().copied();
                let fan_kw = self.fan(name, includes, s.indoor_fan.as_ref(), &rows.span)?;
                Some(MapAndFan { map: typed_map(rows)?.map_rows(|r| r.times(factor, 1.0)), fan_kw })
            }
            None => self.table_cooling(&s.heating).map(|map| MapAndFan { map, fan_kw: heating.fan_kw }),
        };
        let cooling = cooling.map(|c| self.cooling(name, c, s.sensible_heat_ratio.as_ref()));
        Some(Machine {
            name: name.to_owned(),
            kind: MachineKind::HeatPump,
            fuel: FuelId::ELECTRICITY,
            ducted: s.ducted.value,
            cycling_loss: self.cycling_loss(name, s.cycling_loss.as_ref()),
            standby_kw: self.standby(name, s.standby.as_ref()),
            stages_kw: Vec::new(),
            heating: Some(heating),
            cooling,
        })
    }

    fn heat_pump_heating(&mut self, name: &str, s: &HeatPumpSection, factor: f64) -> Option<Heating> {
        let found = match &s.heating {
            MapSection::Rows(rows) => {
                let includes = s.power_includes_indoor_fan.as_deref().copied();
                let fan_kw = self.fan(name, includes, s.indoor_fan.as_ref(), &rows.span)?;
                let steady = s.capacity_basis.as_deref() == Some(&CapacityBasis::Steady);
                let map = typed_map(rows)?;
                MapAndFan { map: if steady { map.charged_for_frost() } else { map }, fan_kw }
            }
            MapSection::Table(table) => self.table_heating(name, table, s.indoor_fan.as_ref())?,
        };
        let map = found.map.map_rows(|r| r.times(factor, 1.0).with_fan_warmth(found.fan_kw));
        let below = s.pan_heater_below.as_deref().map(|t| t.base());
        let pan_heater = s.pan_heater.as_deref().map(|p| (p.base(), below.unwrap_or(PAN_HEATER_BELOW_C)));
        Some(Heating {
            map,
            cut_out_c: s.cut_out.as_deref().map(|t| t.base()),
            cut_on_c: s.cut_on.as_deref().map(|t| t.base()),
            lockout_above_c: None,
            fan_kw: found.fan_kw,
            pan_heater,
        })
    }

    fn table_heating(
        &mut self,
        name: &str,
        table: &Typed<String>,
        fan: Option<&Typed<Power>>,
    ) -> Option<MapAndFan> {
        let key = self.key(name, "table");
        let opened = tables::open(&table.value).map_err(|p| {
            let mut placed = self.job.problem(&table.span, key.clone(), p.what);
            (placed.allowed, placed.help) = (p.allowed, p.help);
            self.problems.push(placed);
        });
        let opened = opened.ok()?;
        let fan_kw = self.fan(name, Some(opened.includes_fan), fan, &table.span)?;
        let Some(map) = opened.heating else {
            self.problems.push(self.job.problem(&table.span, key, "this table has no heating rows"));
            return None;
        };
        self.assumptions.note(key, table.value.clone(), Source::CommonPractice(opened.source));
        Some(MapAndFan { map: if opened.with_defrost { map } else { map.charged_for_frost() }, fan_kw })
    }

    fn table_cooling(&self, heating: &MapSection) -> Option<PerformanceMap> {
        match heating {
            MapSection::Table(table) => tables::open(&table.value).ok()?.cooling,
            MapSection::Rows(_) => None,
        }
    }

    fn air_conditioner(&mut self, name: &str, s: &AirConditionerSection) -> Option<Machine> {
        let factor = self.altitude(name, s.altitude_factor.as_ref());
        let found = match &s.cooling {
            MapSection::Rows(rows) => {
                let includes = s.power_includes_indoor_fan.as_deref().copied();
                let fan_kw = self.fan(name, includes, s.indoor_fan.as_ref(), &rows.span)?;
                MapAndFan { map: typed_map(rows)?.map_rows(|r| r.times(factor, 1.0)), fan_kw }
            }
            MapSection::Table(table) => {
                let Some(map) = self.table_cooling(&s.cooling) else {
                    let key = self.key(name, "table");
                    let what = format!("no built-in table '{}' has cooling rows", table.value);
                    let problem = self.job.problem(&table.span, key, what);
                    self.problems.push(problem.help("Type the machine's own rows under 'cooling'"));
                    return None;
                };
                MapAndFan { map, fan_kw: 0.0 }
            }
        };
        let cooling = self.cooling(name, found, s.sensible_heat_ratio.as_ref());
        Some(Machine {
            name: name.to_owned(),
            kind: MachineKind::AirConditioner,
            fuel: FuelId::ELECTRICITY,
            ducted: s.ducted.value,
            cycling_loss: self.cycling_loss(name, s.cycling_loss.as_ref()),
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
        let key = self.key(name, "blower");
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
            cycling_loss: 0.0,
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
            let problem = self.job.problem(&id.span, self.key(name, "fuel"), what);
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
            let key = self.key(name, "altitude_factor");
            self.assumptions.note(key, format!("{factor:.2}"), Source::CommonPractice(why.into()));
        }
        factor
    }

    fn altitude(&mut self, name: &str, given: Option<&Typed<f64>>) -> f64 {
        let high = self.elevation_m.is_some_and(|m| altitude_factor(m) < 1.0);
        if given.is_none() && high {
            let why = "thin air is not counted for heat pumps and air conditioners; ask the maker";
            let key = self.key(name, "altitude_factor");
            self.assumptions.note(key, "1.0", Source::CommonPractice(why.into()));
        }
        given.map_or(1.0, |f| f.value)
    }

    fn fan(
        &mut self,
        name: &str,
        includes: Option<bool>,
        fan: Option<&Typed<Power>>,
        span: &std::ops::Range<usize>,
    ) -> Option<f64> {
        match (includes, fan) {
            (Some(false), Some(fan)) => Some(fan.base()),
            (Some(false), None) => {
                let what = "the map's power leaves out the indoor fan, but its power is not given";
                let problem = self.job.problem(span, self.key(name, "indoor_fan"), what);
                self.problems.push(problem.help("Add indoor_fan = \"400 W\" with the fan's own figure"));
                None
            }
            _ => Some(0.0),
        }
    }

    fn cycling_loss(&mut self, name: &str, given: Option<&Typed<f64>>) -> f64 {
        let key = self.key(name, "cycling_loss");
        self.assumptions.or_default(
            given.map(|g| g.value),
            key,
            DEFAULT_CYCLING_LOSS,
            DEFAULT_CYCLING_LOSS.to_string(),
            || Source::Published("10 CFR 430 Subpart B Appendix M1, default degradation coefficient".into()),
        )
    }

    fn standby(&mut self, name: &str, given: Option<&Typed<Power>>) -> f64 {
        let key = self.key(name, "standby");
        self.assumptions.or_default(given.map(|g| g.base()), key, 0.0, "0 W", || {
            Source::CommonPractice("the job gives no draw between runs, so none is counted".into())
        })
    }

    fn cooling(&mut self, name: &str, found: MapAndFan, ratio: Option<&Typed<f64>>) -> Cooling {
        let key = self.key(name, "sensible_heat_ratio");
        let default = DEFAULT_SENSIBLE_HEAT_RATIO;
        let sensible_heat_ratio =
            self.assumptions.or_default(ratio.map(|r| r.value), key, default, default.to_string(), || {
                Source::CommonPractice("share of cooling that lowers the temperature".into())
            });
        let map = found.map.map_rows(|r| r.with_fan_warmth(-found.fan_kw));
        Cooling { map, sensible_heat_ratio, fan_kw: found.fan_kw }
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
        cycling_loss: 0.0,
        standby_kw: 0.0,
        stages_kw,
        heating,
        cooling: None,
    }
}

fn unlimited(row: MapRow, fan_kw: f64) -> Option<Heating> {
    let map = PerformanceMap::new(vec![row])?;
    Some(Heating { map, cut_out_c: None, cut_on_c: None, lockout_above_c: None, fan_kw, pan_heater: None })
}

fn typed_map(rows: &Typed<Vec<RowSection>>) -> Option<PerformanceMap> {
    PerformanceMap::new(rows.value.iter().map(typed_row).collect())
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

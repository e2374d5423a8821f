//! What burns or glows: furnaces, boilers, wall heaters, stoves and resistance heat, whose output
//! does not depend on the outdoors.
//!
//! Start at [`resistance`] and `Builder::furnace`.

use super::Builder;
use crate::equipment::combustion::{altitude_factor, furnace_row};
use crate::equipment::machine::{Heating, Machine, MachineKind, Pilot};
use crate::equipment::map::{MapRow, PerformanceMap, Point};
use crate::equipment::origin::{Burner, Origin};
use crate::fuel::FuelId;
use crate::job::{BoilerSection, FurnaceSection, ResistanceSection, StoveSection, Typed, WallHeaterSection};
use crate::sources::Source;
use crate::units::{Energy, Power, Quantity, Temperature, split_number};

impl Builder<'_> {
    pub(super) fn furnace(&mut self, name: &str, s: &FurnaceSection) -> Option<Machine> {
        let fuel = self.fuel(name, &s.fuel)?;
        let factor = self.burner_altitude(name, &s.fuel.value, s.altitude_factor.as_ref());
        let blower =
            self.side(name, "blower", s.blower.as_ref(), (0.5, "500 W"), "an ordinary furnace blower");
        let turndown = s.turndown.as_deref().copied().unwrap_or(1.0);
        let row = furnace_row(s.input.base() * factor, s.afue.value, blower, turndown);
        let burner = self.burner(&s.input, factor, s.afue.value, blower);
        Some(Machine {
            ducted: s.ducted.as_deref().copied().unwrap_or(true),
            standby_kw: self.standby(name, s.standby.as_ref()),
            heating: Some(Heating {
                fan_kw: blower,
                lockout_above_c: s.lockout_above.as_deref().map(|t| t.base()),
                ..anywhere(row)?
            }),
            origin: burner,
            ..Machine::new(name, MachineKind::Furnace, fuel)
        })
    }

    pub(super) fn boiler(&mut self, name: &str, s: &BoilerSection) -> Option<Machine> {
        let fuel = self.fuel(name, &s.fuel)?;
        let factor = self.burner_altitude(name, &s.fuel.value, s.altitude_factor.as_ref());
        let pump = self.side(name, "pump", s.pump.as_ref(), (0.08, "80 W"), "an ordinary circulating pump");
        let turndown = s.turndown.as_deref().copied().unwrap_or(1.0);
        let row = furnace_row(s.input.base() * factor, s.afue.value, pump, turndown);
        let burner = self.burner(&s.input, factor, s.afue.value, pump);
        Some(Machine {
            standby_kw: self.standby(name, s.standby.as_ref()),
            heating: Some(Heating { fan_kw: pump, ..anywhere(row)? }),
            origin: burner,
            ..Machine::new(name, MachineKind::Boiler, fuel)
        })
    }

    pub(super) fn wall_heater(&mut self, name: &str, s: &WallHeaterSection) -> Option<Machine> {
        let fuel = self.fuel(name, &s.fuel)?;
        let factor = self.burner_altitude(name, &s.fuel.value, s.altitude_factor.as_ref());
        let row = furnace_row(s.input.base() * factor, s.efficiency.value, 0.0, 1.0);
        let burner = self.burner(&s.input, factor, s.efficiency.value, 0.0);
        let lit = s.pilot_lit.as_ref().map(|(from, to)| (from.value, to.value));
        Some(Machine {
            standby_kw: self.standby(name, s.standby.as_ref()),
            heating: Some(Heating {
                pilot: s.pilot.as_deref().map(|p| Pilot { kw: p.base(), lit }),
                ..anywhere(row)?
            }),
            origin: burner,
            ..Machine::new(name, MachineKind::WallHeater, fuel)
        })
    }

    pub(super) fn stove(&mut self, name: &str, s: &StoveSection, kind: MachineKind) -> Option<Machine> {
        let fuel = self.fuel(name, &s.fuel)?;
        let motor = match kind {
            MachineKind::PelletStove => self.side(
                name,
                "power",
                s.power.as_ref(),
                (0.1, "100 W"),
                "feed motor and fans of a pellet stove",
            ),
            _ => 0.0,
        };
        let daily_fuelling_kwh = match &s.daily_fuelling {
            Some(given) => Some(self.daily_fuelling(name, given, fuel)?),
            None => {
                self.fed_without_a_break(name, kind);
                None
            }
        };
        let row = furnace_row(s.input.base(), s.efficiency.value, motor, 1.0);
        let burner = self.burner(&s.input, 1.0, s.efficiency.value, motor);
        Some(Machine {
            daily_fuelling_kwh,
            heating: Some(Heating { fan_kw: motor, ..anywhere(row)? }),
            origin: burner,
            ..Machine::new(name, kind, fuel)
        })
    }

    /// A fire that somebody must lay, and nobody says how often.
    fn fed_without_a_break(&mut self, name: &str, kind: MachineKind) {
        let why = "it is fed without a break, day and night, at full fire whenever the house needs it";
        if kind == MachineKind::WoodStove {
            let key = format!("equipment.{name}.daily_fuelling");
            self.assumptions.note(key, "not bound", Source::CommonPractice(why.into()));
        }
    }

    /// Where a burner's full output comes from.
    fn burner(&self, input: &Typed<Power>, altitude: f64, efficiency: f64, side_kw: f64) -> Origin {
        let line = self.job.line(&input.span);
        let burner = Burner { line, input_kw: input.base(), altitude, efficiency, side_kw };
        Origin { burner: Some(burner), ..Origin::default() }
    }

    /// A day's fuel in kWh, typed as energy or in a unit that the fuel is measured by.
    fn daily_fuelling(&mut self, name: &str, given: &Typed<String>, fuel: FuelId) -> Option<f64> {
        let burnt = self.fuels.get(fuel)?;
        let by_unit = || {
            let (number, unit) = split_number(&given.value).ok()?;
            Some(number * burnt.units_in(unit)? * burnt.kwh_per_unit)
        };
        let kwh = Energy::parse(&given.value).ok().map(|e| e.base()).or_else(by_unit);
        if let Some(kwh) = kwh.filter(|kwh| *kwh > 0.0 && *kwh <= 24_000.0) {
            return Some(kwh);
        }
        let what = format!("'{}' is no amount of {} for a day", given.value, burnt.name);
        let key = format!("equipment.{name}.daily_fuelling");
        let example = if burnt.units_in("lb").is_some() { "40 lb" } else { "200 kBtu" };
        let problem = self.job.problem(&given.span, key, what);
        let allowed = format!("more than 0, in kWh, kBtu, MMBtu, MJ or {}", burnt.selling_unit);
        self.problems.push(problem.allowed(allowed).help(format!("Write it as in \"{example}\"")));
        None
    }

    /// Electricity beside the flame, kW: what the job gives, or a default that is noted.
    fn side(
        &mut self,
        name: &str,
        key: &str,
        given: Option<&Typed<Power>>,
        (default_kw, written): (f64, &str),
        why: &str,
    ) -> f64 {
        let key = format!("equipment.{name}.{key}");
        let source = || Source::CommonPractice(why.into());
        self.assumptions.or_default(given.map(|p| p.base()), key, default_kw, written, source)
    }

    pub(super) fn fuel(&mut self, name: &str, id: &Typed<String>) -> Option<FuelId> {
        let found = self.fuels.find(&id.value).filter(|f| *f != FuelId::ELECTRICITY);
        if found.is_none() {
            let burnt: Vec<_> = self.fuels.iter().skip(1).map(|(_, f)| f.id.as_str()).collect();
            let what = format!("'{name}' cannot burn '{}'", id.value);
            let problem = self.job.problem(&id.span, format!("equipment.{name}.fuel"), what);
            self.problems.push(problem.allowed(burnt.join(", ")).help("Name one of these fuels"));
        }
        found
    }

    fn burner_altitude(&mut self, name: &str, fuel: &str, given: Option<&Typed<f64>>) -> f64 {
        if let Some(given) = given {
            return given.value;
        }
        // The code's derating is for gas; oil burners are set up on site.
        if !matches!(fuel, "propane" | "natural_gas") {
            return 1.0;
        }
        let (factor, why) = match self.elevation_m {
            Some(m) => (
                altitude_factor(m),
                "fuel gas code rule: above 2,000 ft, 4 % less for each thousand feet of the elevation",
            ),
            None => (1.0, "the elevation is not known, so thin air is not counted"),
        };
        if factor < 1.0 || self.elevation_m.is_none() {
            let key = format!("equipment.{name}.altitude_factor");
            self.assumptions.note(key, format!("{factor:.2}"), Source::CommonPractice(why.into()));
        }
        factor
    }
}

pub(super) fn resistance(name: &str, s: &ResistanceSection) -> Machine {
    let stages_kw: Vec<f64> = s.stages.value.iter().map(|stage| stage.base()).collect();
    let all = stages_kw.iter().sum();
    let point = Point { capacity_kw: all, power_kw: all };
    let row = MapRow { outdoor_c: f64::NEG_INFINITY, least: point, rated: point, greatest: point };
    let heating = anywhere(row).map(|h| Heating {
        lockout_above_c: s.lockout_above.as_deref().map(|t: &Temperature| t.base()),
        ..h
    });
    Machine {
        ducted: s.ducted.value,
        stages_kw,
        heating,
        ..Machine::new(name, MachineKind::Resistance, FuelId::ELECTRICITY)
    }
}

/// A map of one row that holds at every outdoor temperature.
fn anywhere(row: MapRow) -> Option<Heating> {
    Some(Heating::of(PerformanceMap::new(vec![row])?))
}

//! What burns or glows: furnaces and resistance heat, whose output does not depend on the outdoors.
//!
//! Start at [`resistance`] and `Builder::furnace`.

use super::Builder;
use crate::equipment::combustion::{altitude_factor, furnace_row};
use crate::equipment::machine::{Heating, Machine, MachineKind};
use crate::equipment::map::{MapRow, PerformanceMap, Point};
use crate::fuel::FuelId;
use crate::job::{FurnaceSection, ResistanceSection, Typed};
use crate::sources::Source;
use crate::units::{Quantity, Temperature};

impl Builder<'_> {
    pub(super) fn furnace(&mut self, name: &str, s: &FurnaceSection) -> Option<Machine> {
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
            standby_kw: self.standby(name, s.standby.as_ref()),
            stages_kw: Vec::new(),
            heating: Some(Heating {
                lockout_above_c: s.lockout_above.as_deref().map(|t| t.base()),
                ..unlimited(row, blower)?
            }),
            cooling: None,
        })
    }

    pub(super) fn fuel(&mut self, name: &str, id: &Typed<String>) -> Option<FuelId> {
        let found = self.fuels.find(&id.value).filter(|f| *f != FuelId::ELECTRICITY);
        if found.is_none() {
            let burnt: Vec<_> = self.fuels.iter().skip(1).map(|(_, f)| f.id.as_str()).collect();
            let what = format!("a furnace cannot burn '{}'", id.value);
            let problem = self.job.problem(&id.span, format!("equipment.{name}.fuel"), what);
            self.problems.push(problem.allowed(burnt.join(", ")).help("Name one of these fuels"));
        }
        found
    }

    pub(super) fn burner_altitude(&mut self, name: &str, fuel: &str) -> f64 {
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
}

pub(super) fn resistance(name: &str, s: &ResistanceSection) -> Machine {
    let stages_kw: Vec<f64> = s.stages.value.iter().map(|stage| stage.base()).collect();
    let all = stages_kw.iter().sum();
    let point = Point { capacity_kw: all, power_kw: all };
    let row = MapRow { outdoor_c: f64::NEG_INFINITY, least: point, rated: point, greatest: point };
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

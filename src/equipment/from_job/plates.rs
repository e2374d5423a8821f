//! Nameplates of the job into derived maps, and how far their inputs may be off.
//!
//! Start at [`bands`]; the builder's part is [`Builder::derived`].

use super::Builder;
use super::modes::{Mode, TurnDown};
use crate::equipment::nameplate::{Band, CoolingPlate, Derived, DerivedMap, HeatingPlate, Nameplate, derive};
use crate::equipment::origin::{RowsFrom, RowsOrigin};
use crate::equipment::ratings::seasons::UsClimate;
use crate::job::{EquipmentSection, Job, MachineSection, MapSection, NameplateSection, Typed};
use crate::problem::Problem;
use crate::sources::Source;
use crate::units::Quantity;

/// How far the inputs of a derived machine may be off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MachineBand {
    /// In heating, if that is derived.
    pub heating: Option<Band>,
    /// In cooling, if that is derived.
    pub cooling: Option<Band>,
}

/// The band of each machine of the job, in its order; nothing for machines that are not derived.
pub fn bands(job: &Job) -> Vec<Option<MachineBand>> {
    let climate = UsClimate::built_in().ok();
    let band = |section: &EquipmentSection| {
        let derived = derive(&domain(&plate(section)?.value), climate.as_ref()?).ok()?;
        let band = |map: &Option<DerivedMap>| map.as_ref().map(|m| m.band);
        Some(MachineBand { heating: band(&derived.heating), cooling: band(&derived.cooling) })
    };
    job.equipment.iter().map(band).collect()
}

fn plate(section: &EquipmentSection) -> Option<&Typed<NameplateSection>> {
    let map = match &section.kind.value {
        MachineSection::HeatPump(s) => &s.heating,
        MachineSection::AirConditioner(s) => &s.cooling,
        _ => return None,
    };
    match map {
        MapSection::Nameplate(plate) => Some(plate),
        _ => None,
    }
}

fn domain(section: &NameplateSection) -> Nameplate {
    Nameplate {
        heating: section.heating.as_ref().map(|h| HeatingPlate {
            capacity_47_kw: h.capacity_47.base(),
            capacity_17_kw: h.capacity_17.base(),
            capacity_5_kw: h.capacity_5.as_ref().map(|c| c.base()),
            hspf2: h.hspf2.value,
        }),
        cooling: section
            .cooling
            .as_ref()
            .map(|c| CoolingPlate { capacity_95_kw: c.cooling_capacity_95.base(), seer2: c.seer2.value }),
        turndown: section.turndown.value,
    }
}

impl Builder<'_> {
    /// The maps of a nameplate, noted as derived; every problem told at the rating at fault.
    pub(super) fn derived(&mut self, name: &str, plate: &Typed<NameplateSection>) -> Option<Derived> {
        let built = UsClimate::built_in().map_err(|p| vec![p]);
        match built.and_then(|climate| derive(&domain(plate), &climate)) {
            Ok(derived) => {
                self.told(name, "heating", "HSPF2", derived.heating.as_ref());
                self.told(name, "cooling", "SEER2", derived.cooling.as_ref());
                Some(derived)
            }
            Err(problems) => {
                let place = |p: Problem| {
                    let mut placed =
                        self.job.problem(&plate.span, format!("equipment.{name}.nameplate"), p.what);
                    (placed.allowed, placed.help) = (p.allowed, p.help);
                    placed
                };
                let placed: Vec<_> = problems.into_iter().map(place).collect();
                self.problems.extend(placed);
                None
            }
        }
    }

    fn told(&mut self, name: &str, mode: &str, label: &str, derived: Option<&DerivedMap>) {
        let Some(map) = derived else { return };
        let value = format!(
            "derived from the nameplate, inputs open from {:.2} to {:.2} times these",
            map.band.low, map.band.high
        );
        let why = format!(
            "capacities are the label's; the inputs of a typical machine times {:.2}, so that the map's own \
             rating is the label's {label}; the range is a judgement",
            map.multiplier
        );
        self.assumptions.note(format!("equipment.{name}.{mode}"), value, Source::Derived(why));
    }

    /// A derived map as it runs: frost and fan are in it, and its least output is known.
    pub(super) fn derived_mode(&mut self, map: DerivedMap, line: usize, turn_down: TurnDown<'_>) -> Mode {
        let from = RowsFrom::Nameplate { line, multiplier: map.multiplier };
        Mode {
            cycling_loss: self.cycling_loss(turn_down, &map.map, true),
            origin: RowsOrigin::of(from, map.map),
            fan_kw: 0.0,
        }
    }
}

//! Machines as labelled against machines as given: where a label and a table contradict each other,
//! and what a year may cost where a table is derived from a label.
//!
//! Start at [`cost_ranges`].

use super::note::Note;
use super::option::OptionResult;
use super::ratings::MachineRatings;
use super::setting::Setting;
use crate::equipment::Machine;
use crate::equipment::from_job::{MachineBand, bands};
use crate::equipment::map::PerformanceMap;
use crate::equipment::nameplate::Band;
use crate::equipment::ratings::of_map::Speeds;
use crate::equipment::ratings::seasons::UsRegion;
use crate::job::{EquipmentSection, Job, MachineSection};
use crate::simulation::design::OptionDesign;

/// A label is contradicted by a rating further from it than this share. A judgement: interpolation,
/// rows that are not the tests' own and a typical cycling loss explain a few percent, not ten.
const CONTRADICTION: f64 = 0.10;

/// A note for each label that the machine's own figures contradict, or cannot be held against.
pub(super) fn label_notes(job: &Job, machines: &[Machine], ratings: &[MachineRatings]) -> Vec<Note> {
    let labelled = job.equipment.iter().filter_map(|section| {
        let machine = machines.iter().find(|m| m.name == section.name.value)?;
        let rating = ratings.iter().find(|rating| rating.machine == machine.name)?;
        Some(notes_of(section, machine, rating))
    });
    labelled.flatten().collect()
}

fn notes_of(section: &EquipmentSection, machine: &Machine, rating: &MachineRatings) -> Vec<Note> {
    let (hspf2, seer2) = match &section.kind.value {
        MachineSection::HeatPump(s) => (s.label_hspf2.as_ref(), s.label_seer2.as_ref()),
        MachineSection::AirConditioner(s) => (None, s.label_seer2.as_ref()),
        _ => return Vec::new(),
    };
    let heating = machine.heating.as_ref().map(|h| knows_least(&h.map, h.cycling_loss));
    let cooling = machine.cooling.as_ref().map(|c| knows_least(&c.map, c.cycling_loss));
    let hspf2 = hspf2
        .zip(heating)
        .and_then(|(label, known)| note(machine, "HSPF2", label.value, rating.hspf2_in(UsRegion::IV), known));
    let seer2 = seer2
        .zip(cooling)
        .and_then(|(label, known)| note(machine, "SEER2", label.value, rating.seer2, known));
    hspf2.into_iter().chain(seer2).collect()
}

/// A map without a least output that is not of one speed leaves part load out, so its rating is low.
fn knows_least(map: &PerformanceMap, cycling_loss: f64) -> bool {
    Speeds::of(map) != Speeds::One || cycling_loss > 0.0
}

fn note(
    machine: &Machine,
    rating: &'static str,
    label: f64,
    own: Option<f64>,
    knows_least: bool,
) -> Option<Note> {
    let away = own.map_or(f64::INFINITY, |own| own / label - 1.0);
    let explained = away.abs() <= CONTRADICTION || (!knows_least && away < 0.0);
    let machine = machine.name.clone();
    (!explained).then_some(Note::Label { machine, rating, label, own })
}

/// Gives each option that uses a derived machine its yearly cost at the band's ends: once with every derived
/// input at the low end of its band, once at the high end. `cost` runs one option on other machines.
pub fn cost_ranges(
    job: &Job,
    setting: &Setting<'_>,
    options: &mut [OptionResult],
    cost: impl Fn(&OptionDesign, &Setting<'_>) -> f64,
) {
    let bands = bands(job);
    if bands.iter().all(Option::is_none) {
        return;
    }
    let low = scaled(setting.machines, &bands, |b| b.low);
    let high = scaled(setting.machines, &bands, |b| b.high);
    for option in options {
        let uses = |i: &usize| bands.get(*i).is_some_and(Option::is_some);
        if option.design.zones.iter().any(|z| z.heaters.iter().chain(&z.cooler).any(uses)) {
            let at = |machines: &[Machine]| cost(&option.design, &Setting { machines, ..*setting });
            option.cost_at_band_ends = Some([at(&low), at(&high)]);
        }
    }
}

fn scaled(machines: &[Machine], bands: &[Option<MachineBand>], end: fn(&Band) -> f64) -> Vec<Machine> {
    let scale = |(machine, band): (&Machine, &Option<MachineBand>)| {
        let mut machine = machine.clone();
        let inputs = |map: &PerformanceMap, times: f64| map.map_rows(|r| r.times(1.0, times));
        if let (Some(heating), Some(band)) = (&mut machine.heating, band.and_then(|b| b.heating)) {
            heating.map = inputs(&heating.map, end(&band));
        }
        if let (Some(cooling), Some(band)) = (&mut machine.cooling, band.and_then(|b| b.cooling)) {
            cooling.map = inputs(&cooling.map, end(&band));
        }
        machine
    };
    machines.iter().zip(bands).map(scale).collect()
}

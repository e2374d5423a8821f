//! Machines as labelled against machines as given: where a label and a table contradict each other,
//! and what a year may cost where a table is derived from a label.
//!
//! Start at [`label_notes`] and [`cost_ranges`].

use super::note::Note;
use super::option::OptionResult;
use super::setting::Setting;
use crate::equipment::Machine;
use crate::equipment::from_job::{MachineBand, bands};
use crate::equipment::map::{MapRow, PerformanceMap};
use crate::equipment::nameplate::Band;
use crate::equipment::ratings::of_map::{Speeds, own_hspf2, own_seer2};
use crate::equipment::ratings::seasons::UsClimate;
use crate::job::{EquipmentSection, Job, MachineSection};
use crate::simulation::design::OptionDesign;

/// A label is contradicted by a rating further from it than this share. A judgement: interpolation,
/// rows that are not the tests' own and a typical cycling loss explain a few percent, not ten.
const CONTRADICTION: f64 = 0.10;

/// A note for each label that the machine's own map contradicts, or cannot be held against.
pub fn label_notes(job: &Job, machines: &[Machine]) -> Vec<Note> {
    let Ok(climate) = UsClimate::built_in() else { return Vec::new() };
    let labelled = job.equipment.iter().filter_map(|section| {
        let machine = machines.iter().find(|m| m.name == section.name.value)?;
        Some(notes_of(section, machine, &climate))
    });
    labelled.flatten().collect()
}

fn notes_of(section: &EquipmentSection, machine: &Machine, climate: &UsClimate) -> Vec<Note> {
    let (hspf2, seer2, factor) = match &section.kind.value {
        MachineSection::HeatPump(s) => (s.label_hspf2.as_ref(), s.label_seer2.as_ref(), &s.altitude_factor),
        MachineSection::AirConditioner(s) => (None, s.label_seer2.as_ref(), &s.altitude_factor),
        _ => return Vec::new(),
    };
    let factor = factor.as_ref().map_or(1.0, |f| f.value);
    let heating =
        machine.heating.as_ref().map(|h| (heating_as_tested(&h.map, factor, h.fan_kw), h.cycling_loss));
    let cooling =
        machine.cooling.as_ref().map(|c| (cooling_as_tested(&c.map, factor, c.fan_kw), c.cycling_loss));
    let mut notes = Vec::new();
    if let (Some(label), Some((map, loss))) = (hspf2, &heating) {
        let cooling = cooling.as_ref().map(|(map, _)| map);
        let own = own_hspf2(map, cooling, Speeds::of(map), climate);
        notes.extend(note(machine, "HSPF2", label.value, own, knows_least(map, *loss)));
    }
    if let (Some(label), Some((map, loss))) = (seer2, &cooling) {
        let own = own_seer2(map, Speeds::of(map), heating.is_some(), climate);
        notes.extend(note(machine, "SEER2", label.value, own, knows_least(map, *loss)));
    }
    notes
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

/// Net capacities at sea level and powers with the fan, as a rating wants them.
fn heating_as_tested(map: &PerformanceMap, factor: f64, fan_kw: f64) -> PerformanceMap {
    let sea_level = |r: MapRow| r.with_fan_warmth(-fan_kw).times(1.0 / factor, 1.0).with_fan_warmth(fan_kw);
    map.map_rows(|r| with_fan_power(sea_level(r), fan_kw))
}

fn cooling_as_tested(map: &PerformanceMap, factor: f64, fan_kw: f64) -> PerformanceMap {
    map.map_rows(|r| with_fan_power(r.times(1.0 / factor, 1.0), fan_kw))
}

fn with_fan_power(mut row: MapRow, fan_kw: f64) -> MapRow {
    for point in [&mut row.least, &mut row.rated, &mut row.greatest] {
        point.power_kw += fan_kw;
    }
    row
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

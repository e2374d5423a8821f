//! What the machines' own figures would be rated at, by the standards that labels go by.
//!
//! A map's rows stand for the laboratory's tests; cut-out and cycling loss are the job's. Start at [`MachineRatings`].

use crate::equipment::Machine;
use crate::equipment::map::{MapRow, PerformanceMap};
use crate::equipment::ratings::eu_cooling::seer_on;
use crate::equipment::ratings::eu_heating::scop_on;
use crate::equipment::ratings::of_map::{
    Control, Speeds, cooling_declaration, cooling_tests, declaration, heating_conditions, heating_tests,
};
use crate::equipment::ratings::seasons::{Carrier, EuClimate, EuSeason, UsClimate, UsRegion};
use crate::equipment::ratings::us_cooling::seer2;
use crate::equipment::ratings::us_heating::{hspf, hspf2, least_requirement};
use crate::job::{EquipmentSection, Job, MachineSection, Speed};

/// Outdoor temperature, °C, at which the greatest output just carries the load of the average European season.
/// Source: EN 14825 leaves it to the maker, up to +2 °C; −7 °C is common practice.
pub const BIVALENT_C: f64 = -7.0;

/// The ratings of one machine; what its rows do not reach is nothing.
#[derive(Debug, Clone, PartialEq)]
pub struct MachineRatings {
    /// Its name.
    pub machine: String,
    /// How it changes its output, which decides the standards' method.
    pub speeds: Speeds,
    /// Whether its rows tell what it does at part load; else it is rated at full output alone, which is low.
    pub part_load_known: bool,
    /// HSPF2 in regions I to VI, Btu/Wh (10 CFR 430 Appendix M1).
    pub hspf2: [Option<f64>; 6],
    /// HSPF in region IV, Btu/Wh (Appendix M).
    pub hspf: Option<f64>,
    /// SEER2, Btu/Wh (Appendix M1).
    pub seer2: Option<f64>,
    /// SCOPon of the average season, with [`BIVALENT_C`] (EN 14825).
    pub scop_on: Option<f64>,
    /// SEERon (EN 14825).
    pub seer_on: Option<f64>,
}

impl MachineRatings {
    /// HSPF2 of a region; labels are made for IV.
    pub fn hspf2_in(&self, region: UsRegion) -> Option<f64> {
        self.hspf2.get(region as usize).copied().flatten()
    }
}

/// The ratings of every machine that moves heat from or to outdoor air by a map of its own; heads by theirs.
pub(super) fn ratings(job: &Job, machines: &[Machine]) -> Vec<MachineRatings> {
    let (Ok(us), Ok(eu)) = (UsClimate::built_in(), EuClimate::built_in()) else { return Vec::new() };
    let rated = job.equipment.iter().filter_map(|section| {
        let machine = machines.iter().find(|m| m.name == section.name.value)?;
        rating(&Given::of(section)?, machine, &us, &eu)
    });
    rated.collect()
}

/// What the job says of how the machine is tested.
struct Given {
    altitude_factor: f64,
    speed: Option<Speed>,
    cycling_loss: Option<f64>,
}

impl Given {
    fn of(section: &EquipmentSection) -> Option<Self> {
        let (factor, speed, loss) = match &section.kind.value {
            MachineSection::HeatPump(s) if s.ground.is_none() => {
                (&s.altitude_factor, &s.speed, &s.cycling_loss)
            }
            MachineSection::AirConditioner(s) => (&s.altitude_factor, &s.speed, &s.cycling_loss),
            _ => return None,
        };
        Some(Self {
            altitude_factor: factor.as_ref().map_or(1.0, |factor| factor.value),
            speed: speed.as_ref().map(|speed| speed.value),
            cycling_loss: loss.as_ref().map(|loss| loss.value),
        })
    }

    fn speeds(&self, map: &PerformanceMap) -> Speeds {
        match (self.speed, Speeds::of(map)) {
            (Some(Speed::Two), Speeds::Variable) => Speeds::Two,
            (_, told_by_map) => told_by_map,
        }
    }
}

fn rating(given: &Given, machine: &Machine, us: &UsClimate, eu: &EuClimate) -> Option<MachineRatings> {
    let heating = machine.heating.as_ref();
    let warm = heating.map(|h| heating_as_tested(&h.map, given.altitude_factor, h.fan_kw));
    let cold = machine.cooling.as_ref().map(|c| cooling_as_tested(&c.map, given.altitude_factor, c.fan_kw));
    let speeds = given.speeds(warm.as_ref().or(cold.as_ref())?);
    let control = Control {
        cycling_loss: given.cycling_loss,
        cut_out_c: heating.and_then(|h| h.cut_out_c),
        cut_on_c: heating.and_then(|h| h.cut_on_c),
    };
    let conditions = warm.as_ref().and_then(|warm| heating_conditions(warm, cold.as_ref(), control));
    let tests = warm.as_ref().and_then(|warm| heating_tests(warm, speeds)).zip(conditions);
    let hspf2_of = |region| hspf2(&tests.as_ref()?.0, us.heating(region), &tests.as_ref()?.1).map(|r| r.0);
    let iv = us.heating(UsRegion::IV);
    let hspf_iv = || {
        let (tests, conditions) = tests.as_ref()?;
        let at_47 = warm.as_ref()?.held_at(crate::units::fahrenheit_to_celsius(47.0)).greatest.capacity_kw;
        hspf(tests, iv, least_requirement(at_47, iv), conditions).map(|r| r.0)
    };
    let scop = || {
        let limit = control.cut_out_c;
        let declared = declaration(warm.as_ref()?, EuSeason::Average, Carrier::Air, BIVALENT_C, limit)?;
        scop_on(&declared, eu)
    };
    // Of a heat pump heating tells: cooling rows with a least output say nothing of its heating.
    let cooling_loss = || machine.cooling.as_ref().map(|c| c.cycling_loss);
    let loss = heating.map(|h| h.cycling_loss).or_else(cooling_loss);
    let cooling = cold.as_ref().map(|cold| (cold, given.speeds(cold)));
    Some(MachineRatings {
        machine: machine.name.clone(),
        speeds,
        part_load_known: speeds != Speeds::One || loss.is_some_and(|loss| loss > 0.0),
        hspf2: UsRegion::ALL.map(hspf2_of),
        hspf: hspf_iv(),
        seer2: cooling.and_then(|(cold, speeds)| {
            seer2(&cooling_tests(cold, speeds)?, us, heating.is_some(), given.cycling_loss)
        }),
        scop_on: scop(),
        seer_on: cooling.and_then(|(cold, _)| {
            let (design_load_kw, points) = cooling_declaration(cold)?;
            seer_on(design_load_kw, &points, eu)
        }),
    })
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

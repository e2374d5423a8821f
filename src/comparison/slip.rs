//! Numbers of a job that no house, thermostat, label or fuel dealer ordinarily has: slips of the pen.
//!
//! Only remarks; the bounds are this program's judgement. Start at `slips`.

use crate::job::{EquipmentSection, Job, MachineSection, MapSection, Speed, Typed, ZoneSection};
use crate::units::{Quantity, Temperature, fahrenheit_to_celsius};
use crate::weather::quality::Degree;

/// Less is hardly a thermostat's night, °F: pipes and guests are cold.
const COLD_SET_BACK_F: f64 = 50.0;
/// A heat pump heats well in this weather, °F; nobody keeps it off there.
const WARM_LOCKOUT_F: f64 = 50.0;
/// Zones may have so much more floor together than the house.
const MORE_FLOOR: f64 = 1.10;
/// HSPF2 and SEER2, Btu/Wh, beyond which a label is asked about: of one speed the best have about 9 and 17, of
/// machines that turn down about 13 and 35 (from memory; the room above is a judgement).
const LABELS_OF_ONE_SPEED: (f64, f64) = (10.0, 20.0);
const LABELS: (f64, f64) = (14.0, 42.0);
/// Prices of hard winters came to three times the ordinary ones (from memory).
const SPIKE_TIMES: f64 = 5.0;
/// NFPA 58: propane tanks are filled to so much of their water capacity at most.
const PROPANE_FILL: f64 = 0.80;
/// A house and its station seldom differ by more, K (15 °F): 3.5 °F for each 1,000 ft are 4,300 ft.
const SITE_OFFSET_K: f64 = 15.0 / 1.8;
/// So that a set-back to the set point itself is none, K.
const ALIKE_K: f64 = 0.01;

/// One number that is seldom so.
#[derive(Debug, Clone, PartialEq)]
pub enum Slip {
    /// A set-back warmer than the zone's ordinary set point.
    SetBackWarmer {
        /// The zone's name.
        zone: String,
        /// The set-back's set point, °C.
        set_point_c: f64,
        /// The ordinary one, °C.
        ordinary_c: f64,
    },
    /// A set-back to a very cold room.
    SetBackCold {
        /// The zone's name.
        zone: String,
        /// The set-back's set point, °C.
        set_point_c: f64,
    },
    /// A house much colder or warmer than its weather station.
    LargeSiteOffset {
        /// What is added to every hour, K.
        kelvin: f64,
    },
    /// The zones have more floor together than the house.
    MoreFloorThanHouse {
        /// The zones' together, m².
        zones_m2: f64,
        /// The house's, m².
        house_m2: f64,
    },
    /// A label better than any of such machines.
    HighLabel {
        /// The machine's name.
        machine: String,
        /// The key in which it stands.
        key: &'static str,
        /// Btu/Wh.
        label: f64,
        /// The most that is known, Btu/Wh.
        most: f64,
        /// Whether the machine has one speed.
        one_speed: bool,
    },
    /// Rows of a machine at temperatures of the other unit.
    RowsInOtherUnit {
        /// The machine's name.
        machine: String,
        /// Whether they are rows of `cooling`.
        cooling: bool,
        /// The warmest row's temperature, °C.
        at_c: f64,
        /// The unit in which its number would be ordinary.
        meant: Degree,
    },
    /// A propane tank filled beyond what is allowed.
    PropaneOverfull {
        /// The store's name.
        store: String,
        /// How far, share of the capacity.
        fill_limit: f64,
    },
    /// A price that rises to very many times itself.
    HighSpike {
        /// The fuel's id.
        fuel: String,
        /// The spike's name.
        spike: String,
        /// How many times.
        times: f64,
    },
    /// A heat pump kept off in mild weather.
    WarmLockout {
        /// The option's name.
        option: String,
        /// The zone's name.
        zone: String,
        /// The lock-out, °C.
        lockout_c: f64,
    },
    /// A heat pump or outdoor unit that stops, or stays off, in mild weather.
    WarmCutOut {
        /// `cut_out` or `cut_on`.
        key: &'static str,
        /// The machine's name.
        machine: String,
        /// The temperature, °C.
        at_c: f64,
    },
    /// A heat pump or outdoor unit whose figures go on where it is off.
    FiguresBelowCutOut {
        /// The machine's name.
        machine: String,
        /// Its cut-out, °C.
        at_c: f64,
        /// Where its coldest figure stands, °C.
        coldest_c: f64,
    },
    /// A row of cooling in weather in which nobody cools.
    ColdCoolingRow {
        /// The machine's name.
        machine: String,
        /// Where the row stands, °C.
        at_c: f64,
    },
}

/// A machine's labels with their keys, of a nameplate or beside rows.
pub(super) struct Labels<'a> {
    pub(super) map: &'a MapSection,
    pub(super) speed: Option<Speed>,
    /// The nameplate's turndown, 1 for one speed.
    pub(super) turndown: Option<f64>,
    /// HSPF2, Btu/Wh.
    heating: [(&'static str, Option<f64>); 2],
    /// SEER2, Btu/Wh.
    cooling: [(&'static str, Option<f64>); 2],
}

impl<'a> Labels<'a> {
    /// Of a heat pump or an air conditioner; no other machine has any.
    pub(super) fn of(machine: &'a EquipmentSection) -> Option<Self> {
        let (map, speed, hspf2, seer2) = match &machine.kind.value {
            MachineSection::HeatPump(s) => {
                (&s.heating, &s.speed, s.label_hspf2.as_ref(), s.label_seer2.as_ref())
            }
            MachineSection::AirConditioner(s) => (&s.cooling, &s.speed, None, s.label_seer2.as_ref()),
            _ => return None,
        };
        let plate = if let MapSection::Nameplate(plate) = map { Some(&plate.value) } else { None };
        let typed = |label: Option<&Typed<f64>>| label.map(|typed| typed.value);
        let heating = typed(plate.and_then(|plate| plate.heating.as_ref()).map(|plate| &plate.hspf2));
        let cooling = typed(plate.and_then(|plate| plate.cooling.as_ref()).map(|plate| &plate.seer2));
        Some(Self {
            map,
            speed: speed.as_ref().map(|speed| speed.value),
            turndown: plate.map(|plate| plate.turndown.value),
            heating: [("label_hspf2", typed(hspf2)), ("hspf2", heating)],
            cooling: [("label_seer2", typed(seer2)), ("seer2", cooling)],
        })
    }

    /// Each label that is given with its key and its bound: the first of HSPF2, the second of SEER2.
    pub(super) fn beside(&self, bounds: (f64, f64)) -> impl Iterator<Item = (&'static str, f64, f64)> {
        let heating = self.heating.into_iter().map(move |(key, label)| (key, label, bounds.0));
        let cooling = self.cooling.into_iter().map(move |(key, label)| (key, label, bounds.1));
        heating.chain(cooling).filter_map(|(key, label, bound)| Some((key, label?, bound)))
    }
}

/// Labels better than any.
fn high_labels(machine: &EquipmentSection) -> Vec<Slip> {
    let Some(labels) = Labels::of(machine) else { return Vec::new() };
    let one_speed = labels.turndown.is_some_and(|share| share >= 1.0) || labels.speed == Some(Speed::One);
    let most = if one_speed { LABELS_OF_ONE_SPEED } else { LABELS };
    let high = labels.beside(most).filter(|(_, label, most)| label > most).map(|(key, label, most)| {
        Slip::HighLabel { machine: machine.name.value.clone(), key, label, most, one_speed }
    });
    high.collect()
}

/// Every such number of the job, in its order.
pub(super) fn slips(job: &Job) -> Vec<Slip> {
    let mut found: Vec<Slip> = job.house.zone.iter().flat_map(set_backs).collect();
    let offset = job.site.site_offset.as_deref().map(|offset| offset.base());
    let large = offset.filter(|kelvin| kelvin.abs() > SITE_OFFSET_K + ALIKE_K);
    found.extend(large.map(|kelvin| Slip::LargeSiteOffset { kelvin }));
    found.extend(more_floor(job));
    found.extend(overfull(job));
    found.extend(job.equipment.iter().flat_map(high_labels));
    found.extend(job.prices.fuels.iter().flat_map(|(fuel, prices)| {
        let high = prices.spike.iter().filter(|spike| spike.times.value > SPIKE_TIMES);
        high.map(move |spike| Slip::HighSpike {
            fuel: fuel.value.clone(),
            spike: spike.name.value.clone(),
            times: spike.times.value,
        })
    }));
    found.extend(warm_lockouts(job));
    found
}

fn set_backs(zone: &ZoneSection) -> Vec<Slip> {
    let name = || zone.name.value.clone();
    let ordinary_c = zone.heating_set_point.as_ref().unwrap_or(&zone.indoor).value.base();
    let slip = |set_point: &Typed<Temperature>| {
        let set_point_c = set_point.value.base();
        if set_point_c > ordinary_c + ALIKE_K {
            return Some(Slip::SetBackWarmer { zone: name(), set_point_c, ordinary_c });
        }
        let cold = set_point_c < fahrenheit_to_celsius(COLD_SET_BACK_F) - ALIKE_K;
        cold.then(|| Slip::SetBackCold { zone: name(), set_point_c })
    };
    zone.set_back.iter().filter_map(|entry| slip(&entry.set_point)).collect()
}

fn more_floor(job: &Job) -> Option<Slip> {
    let house_m2 = job.house.floor_area.as_ref()?.value.base();
    let zones_m2: f64 = job.house.zone.iter().flat_map(|z| &z.floor_area).map(|area| area.value.base()).sum();
    (zones_m2 > MORE_FLOOR * house_m2).then_some(Slip::MoreFloorThanHouse { zones_m2, house_m2 })
}

fn overfull(job: &Job) -> Vec<Slip> {
    let propane = job.supplies.iter().filter(|store| store.fuel.value == "propane");
    let over = propane.filter_map(|store| {
        let fill_limit = store.tank.fill_limit.as_ref()?.value;
        let store = store.name.value.clone();
        (fill_limit > PROPANE_FILL).then_some(Slip::PropaneOverfull { store, fill_limit })
    });
    over.collect()
}

fn warm_lockouts(job: &Job) -> Vec<Slip> {
    let zones = job.options.iter().flat_map(|option| option.zone.iter().map(move |zone| (option, zone)));
    let warm = zones.filter_map(|(option, zone)| {
        let lockout_c = zone.compressor_lockout.as_ref()?.value.base();
        let (option, zone) = (option.name.value.clone(), zone.zone.value.clone());
        (lockout_c > fahrenheit_to_celsius(WARM_LOCKOUT_F) + ALIKE_K).then_some(Slip::WarmLockout {
            option,
            zone,
            lockout_c,
        })
    });
    warm.collect()
}

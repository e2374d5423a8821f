//! The program's simulation against the oracle, hour by hour, on random options and on the
//! demonstration job.
//!
//! The oracle imports nothing from the program; here its cases are handed to both. Random means drawn
//! from a fixed seed. Start at [`agree`].

mod demo;
pub(crate) mod dice;
mod ours;
mod random;

use crate::oracle::{self, Outcome, Shared, Store};
use winterledger::fuel::{FuelId, Fuels};
use winterledger::load::room::mean_temperature;
use winterledger::simulation::comfort::Comfort;
use winterledger::simulation::plan::OptionPlan;
use winterledger::simulation::record::{Sink, ZoneRecord};
use winterledger::simulation::state::FuelLimit;
use winterledger::simulation::sums::ZoneSums;
use winterledger::simulation::{FuelLimits, OptionState, advance};

/// What one hour of one zone is compared by.
struct Kept {
    need: f64,
    heat: Vec<f64>,
    draw: Vec<f64>,
    side: Vec<f64>,
    end_c: f64,
    mean_c: f64,
    standby: f64,
    cooling: f64,
    cooling_power: f64,
    recovering: bool,
}

struct Keeper {
    /// `[zone][hour]`.
    hours: Vec<Vec<Kept>>,
    sums: Vec<Comfort>,
}

impl Sink for Keeper {
    fn take(&mut self, record: &ZoneRecord<'_>) {
        let (zone, outcome) = (record.plan, record.outcome);
        let room = zone.room_in(record.hour, record.outdoor_c);
        let heat = outcome.heat - outcome.cooling;
        let heaters = zone.heaters.iter().zip(&outcome.heaters);
        self.hours[record.zone].push(Kept {
            need: outcome.need,
            heat: outcome.in_room.iter().take(zone.heaters.len()).copied().collect(),
            draw: heaters.clone().map(|(_, o)| o.draw).collect(),
            side: heaters.map(|(_, o)| o.side).collect(),
            end_c: outcome.end_c,
            mean_c: mean_temperature(&room, zone.heat_capacity_kwh_k, record.start_c, heat),
            standby: record.standby_kwh,
            cooling: outcome.cooling,
            cooling_power: outcome.cooler.draw + outcome.cooler.side,
            recovering: record.recovering,
        });
        self.sums[record.zone].count(record);
    }
}

/// The stored fuels by the oracle's number of the store.
fn stored(store: usize) -> FuelId {
    Fuels::built_in().unwrap().find(["propane", "oil_no_2"][store]).unwrap()
}

/// Runs the plan as the oracle's stores allow: filled at the same hours, bound by the same kW.
fn run(plan: &OptionPlan, stores: &[Store]) -> Keeper {
    let zones = plan.zones.len();
    let mut keeper = Keeper {
        hours: (0..zones).map(|_| Vec::new()).collect(),
        sums: vec![ZoneSums::default().comfort; zones],
    };
    let mut state = OptionState::at_set_point(plan);
    let hours = plan.outdoor_c.len();
    if stores.is_empty() {
        advance(plan, 0..hours, &mut state, &mut FuelLimits::none(), &mut keeper);
        return keeper;
    }
    let mut left = vec![f64::INFINITY; stores.len()];
    for h in 0..hours {
        for (store, left) in stores.iter().zip(&mut left) {
            for (_, kwh) in store.left_at.iter().filter(|(hour, _)| *hour == h) {
                *left = *kwh;
            }
        }
        let limit = |(s, store): (usize, &Store)| FuelLimit {
            fuel: stored(s),
            left_kwh: left[s],
            greatest_kw: store.greatest[h],
        };
        let mut limits = FuelLimits::of(stores.iter().enumerate().map(limit).collect());
        advance(plan, h..h + 1, &mut state, &mut limits, &mut keeper);
        left = limits.iter().map(|l| l.left_kwh).collect();
    }
    keeper
}

/// 1e-12 of the value, or of 1 kW or 1 K where the value is smaller.
fn close(ours: f64, oracle: f64, what: &dyn Fn() -> String) {
    close_by(1.0, ours, oracle, what);
}

/// So many times what rounding comes to where an hour is split between two that give nearly the same: the
/// split is a difference of needs over the difference of the two outputs, and grows as that shrinks. What
/// the two give together is held to 1e-12 as ever.
fn near_tie(machines: &[oracle::Ran]) -> f64 {
    let [lead, other, ..] = machines else { return 1.0 };
    if lead.heat <= 0.0 || other.heat <= 0.0 || lead.share <= 0.0 || lead.share >= 1.0 {
        return 1.0;
    }
    let full = other.heat / (1.0 - lead.share);
    (full / (full - lead.heat / lead.share).abs()).max(1.0)
}

fn close_by(apart: f64, ours: f64, oracle: f64, what: &dyn Fn() -> String) {
    let scale = oracle.abs().max(1.0) * apart;
    assert!((ours - oracle).abs() <= 1e-12 * scale, "{}: ours {ours:e}, oracle {oracle:e}", what());
}

/// Holds the plan to the oracle's run of the same zones; gives that run.
fn agree(name: &str, zones: &[oracle::Zone], shared: &Shared, plan: &OptionPlan) -> Outcome {
    let theirs = oracle::simulate_sharing(zones, shared, &plan.outdoor_c);
    let ours = run(plan, &shared.stores);
    for (z, zone) in zones.iter().enumerate() {
        assert_eq!(ours.hours[z].len(), theirs.hours[z].len(), "{name}");
        for (h, (a, b)) in ours.hours[z].iter().zip(&theirs.hours[z]).enumerate() {
            let at = |what: &str| format!("{name}, zone {z}, hour {h}, {what}");
            close(a.need, b.need, &|| at("need"));
            close(a.heat.iter().sum(), b.machines.iter().map(|m| m.heat).sum(), &|| at("heat"));
            let apart = if zone.alternate.is_some() { near_tie(&b.machines) } else { 1.0 };
            let close = |ours, theirs, what: &dyn Fn() -> String| close_by(apart, ours, theirs, what);
            for (i, ran) in b.machines.iter().enumerate() {
                close(a.heat[i], ran.heat, &|| at(&format!("heat of machine {i}")));
                // The oracle has a heat pump's fan in its one draw.
                let one_meter = matches!(zone.machines()[i].machine, oracle::Machine::HeatPump(_));
                let (draw, side) =
                    if one_meter { (a.draw[i] + a.side[i], 0.0) } else { (a.draw[i], a.side[i]) };
                close(draw, ran.draw, &|| at(&format!("draw of machine {i}")));
                close(side, ran.side, &|| at(&format!("side draw of machine {i}")));
            }
            if let (Some(room), Some(mean)) = (b.room, b.mean) {
                close(a.end_c, room, &|| at("room"));
                close(a.mean_c, mean, &|| at("mean room"));
            }
            close(a.standby, b.standby, &|| at("standby"));
            close(a.cooling, b.cooled, &|| at("cooling"));
            close(a.cooling_power, b.cooling_power, &|| at("cooling power"));
            assert_eq!(a.recovering, b.recovering, "{}", at("recovery"));
        }
        comfort_agrees(&format!("{name}, zone {z}"), zone, &ours.sums[z], &theirs, z);
    }
    theirs
}

fn comfort_agrees(name: &str, zone: &oracle::Zone, ours: &Comfort, run: &Outcome, z: usize) {
    let theirs = &run.comfort[z];
    let hours = run.hours[z].len() as f64;
    assert_eq!(ours.hours_not_kept_warm, theirs.hours_not_kept_warm as usize, "{name}");
    assert_eq!(ours.recovery_hours, theirs.recovery_hours.unwrap_or(0) as usize, "{name}");
    assert_eq!(ours.room.is_some(), theirs.lowest_room.is_some(), "{name}");
    if let Some(room) = &ours.room {
        close(room.lowest_c, theirs.lowest_room.unwrap(), &|| format!("{name}, lowest room"));
        assert_eq!(Some(room.hours_below_60f), theirs.hours_below_60f.map(|n| n as usize), "{name}");
        assert_eq!(Some(room.hours_below_45f), theirs.hours_below_45f.map(|n| n as usize), "{name}");
        let (a, b) = (room.degree_hours_short, theirs.degree_hours_short.unwrap());
        // Each hour's room to 1e-12 of some 20 °C.
        assert!((a - b).abs() <= 3e-11 * hours, "{name}, degree-hours: {a} {b}");
    }
    // The oracle's twin never rejoins, ours when the two rooms are within 1e-9 K: what is left then
    // is worth its heat capacity times 1e-9 K each time, and a shortage below 1e-9 starts no twin.
    let short = run.hours[z].iter().filter(|r| r.machines.iter().map(|m| m.heat).sum::<f64>() < r.need);
    let allowed = 1e-11 * hours + 1e-9 * (1.0 + short.count() as f64 * zone.heat_capacity.max(1.0));
    let (a, b) = (ours.heat_not_delivered_kwh, theirs.heat_not_delivered);
    assert!((a - b).abs() <= allowed, "{name}, heat not delivered: {a} {b}, allowed {allowed:e}");
}

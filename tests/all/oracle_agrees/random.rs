//! Made-up options on made-up weather, once as the oracle and once as the program takes them.
//!
//! Start at [`case`].

use super::agree;
use super::dice::Dice;
use super::ours::{ours_unit, ours_zone};
use crate::oracle::{
    Alternate, Cooling, CoolingMachine, DuctForm, Furnace, HeatPump, Level, Machine, Outcome, OutdoorUnit,
    Placed, Record, Row, Shared, Store, Tempering, Zone,
};
use winterledger::calendar::Calendar;
use winterledger::series::Hourly;
use winterledger::simulation::design::OptionDesign;
use winterledger::simulation::plan::OptionPlan;
use winterledger::weather::OutdoorRun;

const CASES: u64 = 600;

/// An option both ways.
struct Case {
    zones: Vec<Zone>,
    shared: Shared,
    plan: OptionPlan,
}

/// What the two are made from, beside the oracle's own zone.
pub(super) struct Clock {
    pub(super) set_point: f64,
    /// First and last-excluded hour of the day, and the set point then.
    pub(super) set_backs: Vec<(u32, u32, f64)>,
    pub(super) duct_efficiency: f64,
    pub(super) form: Option<DuctForm>,
}

/// Weather that goes from a cold snap to a warm spell and back, with days, wind-swept noise and a
/// few steps.
fn weather(dice: &mut Dice, days: usize) -> Vec<f64> {
    // A few are of early summer, so that heads on a unit are met cooling.
    let warmest = if dice.chance(0.25) { 24.0 } else { 8.0 };
    let (mean, swing, daily) = (dice.real(-12.0, warmest), dice.real(2.0, 24.0), dice.real(0.0, 8.0));
    let hours = days * 24;
    let phase = dice.real(0.0, std::f64::consts::TAU);
    let mut wander = 0.0;
    (0..hours)
        .map(|h| {
            let turn = std::f64::consts::TAU * h as f64;
            wander = 0.95 * wander + dice.real(-1.5, 1.5);
            mean + swing * (turn / hours as f64 + phase).sin() + daily * (turn / 24.0).sin() + wander
        })
        .collect()
}

/// Rows that stay in order and above zero when they are carried on for 5 K.
fn rows(dice: &mut Dice, coldest: f64, least: bool, rated: bool) -> Vec<Row> {
    let count = 2 + dice.below(4);
    let mut outdoor = coldest;
    let mut capacity = dice.real(3.0, 9.0);
    let (low, middle) = (dice.real(0.2, 0.5), dice.real(0.6, 0.9));
    (0..count)
        .map(|_| {
            let cop = dice.real(1.6, 4.0);
            let level = |share: f64, better: f64| Level {
                capacity: capacity * share,
                power: capacity * share / (cop * better),
            };
            let row = Row {
                outdoor,
                least: least.then(|| level(low, 1.3)),
                rated: rated.then(|| level(middle, 1.15)),
                greatest: level(1.0, 1.0),
            };
            outdoor += dice.real(8.0, 16.0);
            capacity *= dice.real(0.95, 1.35);
            row
        })
        .collect()
}

fn heat_pump(dice: &mut Dice) -> HeatPump {
    let least = dice.chance(0.6);
    let rated = least && dice.chance(0.5);
    let coldest = dice.real(-26.0, -8.0);
    let mut rows = rows(dice, coldest, least, rated);
    if dice.chance(0.1) {
        // A metric table's frost row.
        let last = rows.len() - 1;
        if rows[last - 1].outdoor < 0.0 {
            rows[last].outdoor = 2.0;
        }
    }
    let cut_out = dice.chance(0.5).then(|| coldest + dice.real(-12.0, 8.0));
    let cut_on = cut_out.filter(|_| dice.chance(0.5)).map(|t| t + dice.real(0.0, 5.0));
    HeatPump {
        rows,
        steady_basis: dice.chance(0.5),
        cut_out,
        cut_on,
        cycling_loss: if dice.chance(0.2) { 0.0 } else { dice.real(0.0, 0.5) },
        fan: if dice.chance(0.5) { dice.real(0.05, 0.6) } else { 0.0 },
        standby: if dice.chance(0.6) { dice.real(0.005, 0.05) } else { 0.0 },
    }
}

fn cooler_rows(dice: &mut Dice) -> HeatPump {
    let least = dice.chance(0.5);
    HeatPump {
        rows: rows(dice, 24.0, least, false),
        steady_basis: false,
        cut_out: None,
        cut_on: None,
        cycling_loss: dice.real(0.0, 0.5),
        fan: if dice.chance(0.5) { dice.real(0.05, 0.6) } else { 0.0 },
        standby: if dice.chance(0.5) { dice.real(0.005, 0.05) } else { 0.0 },
    }
}

fn furnace(dice: &mut Dice) -> Furnace {
    Furnace {
        input: dice.real(4.0, 25.0),
        afue: dice.real(0.6, 0.98),
        altitude_factor: if dice.chance(0.3) { dice.real(0.6, 1.0) } else { 1.0 },
        blower: if dice.chance(0.8) { dice.real(0.1, 0.7) } else { 0.0 },
        store: [Some(0), Some(0), Some(1), None][dice.below(4)],
        pilot: 0.0,
        daily: f64::INFINITY,
    }
}

/// One that takes no turns: perhaps with a pilot, perhaps a stove filled once a day from no store.
fn burner(dice: &mut Dice) -> Furnace {
    let plain = furnace(dice);
    let pilot = if dice.chance(0.3) { dice.real(0.05, 0.4) } else { 0.0 };
    if dice.chance(0.3) {
        return Furnace { pilot, store: None, daily: dice.real(10.0, 150.0), ..plain };
    }
    Furnace { pilot, ..plain }
}

fn placed(dice: &mut Dice, machine: Machine, clock: &Clock) -> Placed {
    if dice.chance(0.6) {
        return Placed { machine, duct_efficiency: clock.duct_efficiency, form: clock.form, unit: None };
    }
    Placed { machine, duct_efficiency: 1.0, form: None, unit: None }
}

fn any_heater(dice: &mut Dice) -> Machine {
    match dice.below(4) {
        0 | 1 => Machine::HeatPump(heat_pump(dice)),
        2 => Machine::Furnace(burner(dice)),
        _ => Machine::Resistance(dice.real(1.0, 12.0)),
    }
}

fn zone(dice: &mut Dice, hours: usize) -> (Zone, Clock) {
    let clock = clock(dice);
    let at = |h: usize| {
        let hour = (h % 24) as u32;
        let holds = |(from, to, _): &&(u32, u32, f64)| {
            if from < to { (*from..*to).contains(&hour) } else { hour >= *from || hour < *to }
        };
        clock.set_backs.iter().find(holds).map_or(clock.set_point, |s| s.2)
    };
    let loss = dice.real(0.08, 0.45);
    let lead = any_heater(dice);
    let lead_is_pump = matches!(lead, Machine::HeatPump(_));
    let alternate = (lead_is_pump && dice.chance(0.45)).then(|| {
        let burner = match any_heater(dice) {
            other @ (Machine::HeatPump(_) | Machine::Resistance(_)) if dice.chance(0.2) => other,
            _ => Machine::Furnace(furnace(dice)),
        };
        Alternate {
            placed: placed(dice, burner, &clock),
            lock_out: if dice.chance(0.5) { dice.real(-20.0, 5.0) } else { f64::NEG_INFINITY },
            whole_hour: dice.chance(0.4),
        }
    });
    let mut auxiliary: Vec<Placed> = (0..dice.below(3))
        .map(|_| {
            let machine = match dice.below(3) {
                0 => Machine::Furnace(burner(dice)),
                _ => Machine::Resistance(dice.real(0.5, 8.0)),
            };
            placed(dice, machine, &clock)
        })
        .collect();
    let mut lead = placed(dice, lead, &clock);
    if let Some(a) = &alternate {
        // Two that take turns blow into the same ducts.
        (lead.duct_efficiency, lead.form) = (a.placed.duct_efficiency, a.placed.form);
    }
    if lead_is_pump && alternate.is_none() && dice.chance(0.3) {
        // A small furnace last in the lead's ducts, so that all of its hour is used.
        let input = dice.real(1.0, 5.0);
        let small = Furnace { input, store: None, ..furnace(dice) };
        auxiliary.push(Placed { machine: Machine::Furnace(small), ..lead.clone() });
    }
    let tempering = tempering(dice, &lead, alternate.as_ref(), &auxiliary);
    let zone = Zone {
        loss,
        gains: loss * dice.real(0.0, 6.0),
        heat_capacity: if dice.chance(0.25) { 0.0 } else { dice.real(1.0, 15.0) },
        set_points: (0..hours).map(at).collect(),
        vent: dice.real(24.5, 28.0),
        cooling: dice.chance(0.5).then(|| cooling(dice, loss, &lead)),
        lead,
        alternate,
        auxiliary,
        tempering,
    };
    (zone, clock)
}

fn tempering(
    dice: &mut Dice,
    lead: &Placed,
    alternate: Option<&Alternate>,
    auxiliary: &[Placed],
) -> Option<Tempering> {
    if !matches!(lead.machine, Machine::HeatPump(_)) || dice.chance(0.5) {
        return None;
    }
    let by_furnace = alternate.is_some_and(|a| matches!(a.placed.machine, Machine::Furnace(_)));
    // A furnace, in the same ducts, that takes no turns; one that is lit by hand, or filled by hand, does not.
    let beside = auxiliary.iter().position(|a| match &a.machine {
        Machine::Furnace(f) => f.pilot == 0.0 && f.daily == f64::INFINITY && same_ducts(a, lead),
        _ => false,
    });
    let strips = (!(by_furnace || beside.is_some()) || dice.chance(0.2)).then(|| dice.real(1.0, 10.0));
    let bank = match strips {
        Some(_) => auxiliary.iter().position(|a| matches!(a.machine, Machine::Resistance(_))),
        None => beside,
    };
    Some(Tempering { strips, minutes: dice.real(2.0, 12.0), of_minutes: dice.real(30.0, 120.0), bank })
}

fn same_ducts(a: &Placed, b: &Placed) -> bool {
    let is_alike = a.form.is_some() == b.form.is_some();
    is_alike && (a.form.is_some() || a.duct_efficiency == b.duct_efficiency)
}

/// Hangs the zones' heat pumps on one outdoor unit, as heads that blow into no ducts.
fn hang(dice: &mut Dice, zones: &mut [(Zone, Clock)]) -> Option<OutdoorUnit> {
    if !zones.iter().any(|(zone, _)| matches!(zone.lead.machine, Machine::HeatPump(_))) || dice.chance(0.6) {
        return None;
    }
    for (zone, _) in zones {
        let pump = matches!(zone.lead.machine, Machine::HeatPump(_));
        for placed in [Some(&mut zone.lead), zone.alternate.as_mut().map(|a| &mut a.placed)] {
            if let (Some(placed), true) = (placed, pump) {
                (placed.duct_efficiency, placed.form) = (1.0, None);
            }
        }
        zone.lead.unit = pump.then_some(0);
        if let Some(machine) = zone.cooling.as_mut().and_then(|c| c.machine.as_mut()).filter(|_| pump) {
            machine.duct_efficiency = 1.0;
            machine.unit = machine.is_the_lead.then_some(0);
        }
    }
    let coldest = dice.real(-26.0, -8.0);
    let mut heating = HeatPump { standby: 0.0, fan: 0.0, ..heat_pump(dice) };
    // Some are too weak for their heads, so that the bound is met in heating and cooling.
    let share = if dice.chance(0.5) { dice.real(0.05, 0.5) } else { 1.0 };
    let mut weak = |coldest: f64, share: f64| {
        let mut rows = rows(dice, coldest, false, false);
        for row in &mut rows {
            row.greatest.capacity *= share;
            row.greatest.power *= share;
        }
        rows
    };
    heating.rows = weak(coldest, share);
    let cooling_rows = weak(24.0, 0.2 * share);
    let cooling = dice.chance(0.8).then(|| HeatPump { rows: cooling_rows, ..heating.clone() });
    Some(OutdoorUnit { heating, cooling })
}

fn clock(dice: &mut Dice) -> Clock {
    let set_point = dice.real(18.0, 22.5);
    let night = (dice.below(24) as u32, dice.below(24) as u32, set_point - dice.real(-1.0, 5.0));
    Clock {
        set_point,
        set_backs: if dice.chance(0.5) && night.0 != night.1 { vec![night] } else { Vec::new() },
        duct_efficiency: dice.real(0.75, 1.0),
        form: dice.chance(0.35).then(|| form(dice, set_point)),
    }
}

/// Mostly as ducts are, a few so bad that the least outputs keep too little.
fn form(dice: &mut Dice, room: f64) -> DuctForm {
    let worst = if dice.chance(0.3) { 0.3 } else { 0.05 };
    DuctForm {
        kept: dice.real(0.7, 0.97),
        lost_each_kelvin: dice.real(0.0, worst),
        room,
        around: dice.chance(0.5).then(|| dice.real(-10.0, 22.0)),
    }
}

fn cooling(dice: &mut Dice, loss: f64, lead: &Placed) -> Cooling {
    let loss = loss * dice.real(0.5, 1.5);
    let (balance, set_point) = (dice.real(14.0, 22.0), dice.real(23.9, 26.0));
    let machine = dice.chance(0.8).then(|| {
        let is_the_lead = matches!(lead.machine, Machine::HeatPump(_)) && dice.chance(0.6);
        let mut pump = cooler_rows(dice);
        if let (Machine::HeatPump(heating), true) = (&lead.machine, is_the_lead) {
            pump.standby = heating.standby;
        }
        CoolingMachine {
            pump,
            duct_efficiency: lead.duct_efficiency,
            sensible_share: dice.real(0.6, 0.9),
            unit: None,
            is_the_lead,
        }
    });
    Cooling { loss, gains: loss * (set_point - balance), balance, set_point, machine }
}

fn stores(dice: &mut Dice, days: usize) -> Vec<Store> {
    if dice.chance(0.55) {
        return Vec::new();
    }
    let one = |dice: &mut Dice| {
        let steady = if dice.chance(0.4) { dice.real(1.0, 15.0) } else { f64::INFINITY };
        let varies = dice.chance(0.3);
        let greatest = (0..days * 24).map(|_| if varies { steady * dice.real(0.0, 1.0) } else { steady });
        let greatest = greatest.collect();
        let left_at = (0..days).filter(|_| dice.chance(0.5)).collect::<Vec<_>>();
        let left_at = left_at.into_iter().map(|d| (d * 24, dice.real(0.0, 150.0))).collect();
        Store { greatest, left_at }
    };
    vec![one(dice), one(dice)]
}

fn case(seed: u64) -> Case {
    let mut dice = Dice::new(seed);
    let days = 6 + dice.below(20);
    let outdoor = weather(&mut dice, days);
    let count = 1 + dice.below(2);
    let mut made: Vec<_> = (0..count).map(|_| zone(&mut dice, days * 24)).collect();
    let units: Vec<_> = hang(&mut dice, &mut made).into_iter().collect();
    let mut machines: Vec<_> = units.iter().map(ours_unit).collect();
    let dew_points =
        dice.chance(0.6).then(|| outdoor.iter().map(|t| t - dice.real(0.0, 9.0)).collect::<Vec<_>>());
    let (zones, designs): (Vec<_>, Vec<_>) =
        made.iter().map(|(zone, clock)| ours_zone(zone, clock, &mut machines)).unzip();
    let run = OutdoorRun {
        calendar: Calendar::of_one_year(2023, days * 24, 0.0, None),
        dry_bulb_c: Hourly::new(outdoor).unwrap(),
        dew_point_c: dew_points.clone().and_then(Hourly::new),
    };
    let design = OptionDesign { zones: designs, ..OptionDesign::default() };
    let plan = OptionPlan::new(&design, &zones, &machines, &run);
    let shared = Shared { stores: stores(&mut dice, days), units, dew_points };
    Case { zones: made.into_iter().map(|(zone, _)| zone).collect(), shared, plan }
}

/// What the cases must have met, so that agreement is not that of empty hours.
#[derive(Default, Debug)]
struct Met {
    hours: usize,
    short: usize,
    recovering: usize,
    cooled: usize,
    shared: usize,
    backup: usize,
    dry: usize,
    not_kept_warm: u32,
    below_45f: u32,
    tempered: usize,
    /// Of these, by a furnace that takes no turns, all of whose hour is used.
    lent: usize,
    heads_bound: usize,
    coolers_bound: usize,
    /// Of these, zones that owe heat, whose twin is bound too.
    bound_owing: usize,
    pilots: usize,
    burned_out: usize,
}

impl Met {
    /// Hours of what bounds and warms machines beside their own.
    fn count_shared(&mut self, case: &Case, outcome: &Outcome) {
        let outdoor = &case.plan.outdoor_c;
        for (zone, hours) in case.zones.iter().zip(&outcome.hours) {
            let by_furnace = zone.tempering.is_some_and(|tempering| tempering.strips.is_none());
            for (hour, t) in hours.iter().zip(outdoor) {
                let ran = |i: usize| hour.machines.get(i).is_some_and(|m| m.heat > 0.0);
                // The lead carries the hour and the furnace burns a little beside it.
                self.tempered += usize::from(by_furnace && ran(0) && ran(1) && *t > -3.0);
                let beside = zone.tempering.and_then(|tempering| tempering.bank).filter(|_| by_furnace);
                let beside = beside.map(|i| 1 + usize::from(zone.alternate.is_some()) + i);
                let all_used = beside.is_some_and(|place| match &zone.machines()[place].machine {
                    Machine::Furnace(f) => hour.machines[place].draw > f.burning() * (1.0 - 1e-9),
                    _ => false,
                });
                self.lent += usize::from(all_used && ran(0) && (-3.0..5.0).contains(t));
                self.pilots += hour.machines.iter().filter(|m| m.heat == 0.0 && m.draw > 0.0).count();
            }
            for (place, placed) in zone.machines().iter().enumerate() {
                let Machine::Furnace(stove) = &placed.machine else { continue };
                let of_day = |day: &[Record]| day.iter().map(|hour| hour.machines[place].draw).sum::<f64>();
                self.burned_out +=
                    hours.chunks(24).filter(|d| of_day(d) > stove.daily * (1.0 - 1e-9)).count();
            }
        }
        for unit in &case.shared.units {
            let heating = unit.heating.at_each_hour(outdoor);
            for h in 0..outdoor.len() {
                let of = |each: &dyn Fn(&Zone, &Record) -> f64| -> f64 {
                    case.zones.iter().zip(&outcome.hours).map(|(zone, hours)| each(zone, &hours[h])).sum()
                };
                let heat =
                    of(&|zone, hour| if zone.lead.unit.is_some() { hour.machines[0].heat } else { 0.0 });
                let most = heating[h].full(0.0);
                self.heads_bound += usize::from(most > 0.0 && heat > most * (1.0 - 1e-9));
            }
        }
        for unit in &case.shared.units {
            self.count_cooling(case, outcome, unit);
        }
    }

    /// Hours in which a unit's cooling rows bind its heads.
    fn count_cooling(&mut self, case: &Case, outcome: &Outcome, unit: &OutdoorUnit) {
        let Some(rows) = &unit.cooling else { return };
        let head = |zone: &Zone| {
            let machine = zone.cooling.as_ref()?.machine.as_ref()?;
            machine.unit.map(|_| machine.sensible_share * machine.duct_efficiency)
        };
        for (h, now) in rows.cooling_at_each_hour(&case.plan.outdoor_c).iter().enumerate() {
            let zones = case.zones.iter().zip(&outcome.hours);
            let given = zones.filter_map(|(zone, hours)| Some(hours[h].cooled / head(zone)?)).sum::<f64>();
            if given > now.greatest.capacity * (1.0 - 1e-9) {
                self.coolers_bound += 1;
                let mut zones = case.zones.iter().zip(&outcome.comfort);
                self.bound_owing += usize::from(
                    zones.any(|(zone, comfort)| head(zone).is_some() && comfort.heat_not_delivered > 0.0),
                );
            }
        }
    }
}

#[test]
fn the_simulation_agrees_with_the_oracle_on_hundreds_of_made_up_options() {
    let mut met = Met::default();
    for seed in 0..CASES {
        let case = case(seed);
        let outcome = agree(&format!("seed {seed}"), &case.zones, &case.shared, &case.plan);
        for (zone, hours) in case.zones.iter().zip(&outcome.hours) {
            for hour in hours {
                let heat: f64 = hour.machines.iter().map(|m| m.heat).sum();
                met.hours += 1;
                met.short += usize::from(heat < hour.need * (1.0 - 1e-9));
                met.recovering += usize::from(hour.recovering);
                met.cooled += usize::from(hour.cooled > 0.0);
                let ran = |i: usize| hour.machines.get(i).is_some_and(|m| m.heat > 0.0);
                met.shared += usize::from(zone.alternate.is_some() && ran(0) && ran(1));
                met.backup += usize::from(zone.alternate.is_none() && ran(0) && ran(1));
                met.dry += usize::from(!case.shared.stores.is_empty() && heat < hour.need && heat > 0.0);
            }
        }
        met.count_shared(&case, &outcome);
        met.not_kept_warm += outcome.comfort.iter().map(|c| c.hours_not_kept_warm).sum::<u32>();
        met.below_45f += outcome.comfort.iter().filter_map(|c| c.hours_below_45f).sum::<u32>();
    }
    let parts = [met.short, met.recovering, met.cooled, met.shared, met.backup, met.dry];
    assert!(met.hours > 100_000 && parts.iter().all(|n| *n > 500), "{met:?}");
    assert!(met.not_kept_warm > 500 && met.below_45f > 500, "{met:?}");
    let shared = [
        met.tempered,
        met.lent,
        met.heads_bound,
        met.pilots,
        met.burned_out,
        met.coolers_bound,
        met.bound_owing,
    ];
    assert!(shared.iter().all(|n| *n > 100), "{met:?}");
}

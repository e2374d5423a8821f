//! A slow, plain second opinion on the hourly simulation: one option, hour by hour, `f64` only.
//!
//! It imports nothing from the crate and was written without sight of it; the two are compared
//! hour by hour. It must never be made fast or clever. Temperatures °C, powers kW, heat capacity
//! kWh/K, one step an hour. Start at [`simulate`].
//!
//! Where the rules leave a choice, the plainest reading was taken:
//! - *Cooling hours* (outdoors above the cooling balance temperature) use the cooling loss and
//!   gains, also for any heating need. The cooling machine is asked only in them. A zone may have
//!   a cooling description and no machine; then only its parameters change.
//! - Windows open after the machines have done their hour: the room at the hour's end is cut to
//!   the warmer of `vent` and outdoors.
//! - Cooling maps hold their nearest row outside their rows on both sides and have no cut-out; a
//!   fan left out of their power is added to it and takes nothing off the (net) capacity.
//! - The frost factor is laid on every level of every row and the result is interpolated; a 35 °F
//!   row is inserted only between two rows that enclose it. The fan comes after frost.
//! - The fan's share of the hour while cycling is load over least output, both with the fan's
//!   warmth, and is not lengthened by the part-load factor.
//! - A rated level counts only where every row gives one. A map of one row is flat; if that row
//!   has a least level, it is used.
//! - A heat pump starts the run switched on (unless at or below its cut-out) and its cut-out and
//!   cut-on are followed whether or not it is wanted. A capacity that extrapolation takes to 0 or
//!   below is off.
//! - Shared in time with an alternate no stronger than the lead: the lead keeps the whole hour. In
//!   the whole-hour form the alternate takes it all the same.
//! - A fuel limit binds all draws of a store by one share of what they would be with ample fuel;
//!   the same for the greatest kW an hour as for what is left. A machine of the same store that
//!   had no draw gets none. For that share of its time an alternate does what it would have done with
//!   ample fuel; for the rest it is off, and the lead does what it would do without it.
//! - Standby is drawn in hours without any output; where the lead also cools, cooling is output.
//! - A recovery begins in an hour whose set point is above that of the hour before, unless the room
//!   already stands within 0.1 K of it; an hour is a recovery hour if it *begins* in recovery. A
//!   second rise begins the three hours again. The run's first hour is no rise.
//! - Recovery hours are left out of hours not kept warm and of degree-hours; hours below 60 and
//!   45 °F, the lowest room temperature and heat not delivered include them.
//! - Degree-hours short add up set point less room, where positive, over every hour counted, not
//!   only over the hours that count as not kept warm.
//! - Ducts that lose more of a low output lose it while air moves. A machine that adds to another one in
//!   the same ducts, which runs (for more than rounding), loses its share alone. Cooling goes by the fixed efficiency.
//! - A wish of less than 1e-12 kW is rounding, and no machine starts for it.
//! - The twin room starts from the room's temperature in the first short hour, never rejoins, and
//!   is cooled by the same machine; heat not delivered is the signed sum of twin less room.

mod cases;
mod machine;
mod zone;

pub(crate) use machine::{AtHour, DuctForm, Furnace, HeatPump, Level, Machine, Placed, Ran, Row};
pub(crate) use zone::{Alternate, Cooling, CoolingMachine, Store, Zone};
pub(crate) use zone::{heat_to_reach, room_after, room_mean};

/// One zone's hour.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Record {
    /// Room at the hour's end; `None` with a heat capacity of 0.
    pub(crate) room: Option<f64>,
    /// Mean room over the hour with the windows shut.
    pub(crate) mean: Option<f64>,
    /// Heat the room asks for.
    pub(crate) need: f64,
    /// By machine: lead, alternate where there is one, auxiliaries.
    pub(crate) machines: Vec<Ran>,
    pub(crate) standby: f64,
    /// Sensible heat taken out of the room.
    pub(crate) cooled: f64,
    pub(crate) cooling_power: f64,
    pub(crate) recovering: bool,
}

/// Was it warm? `None` where a zone without heat capacity cannot say.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Comfort {
    pub(crate) hours_not_kept_warm: u32,
    pub(crate) lowest_room: Option<f64>,
    pub(crate) hours_below_60f: Option<u32>,
    pub(crate) hours_below_45f: Option<u32>,
    pub(crate) degree_hours_short: Option<f64>,
    pub(crate) recovery_hours: Option<u32>,
    /// kWh.
    pub(crate) heat_not_delivered: f64,
}

/// One option's run.
#[derive(Debug, Clone)]
pub(crate) struct Outcome {
    /// `[zone][hour]`.
    pub(crate) hours: Vec<Vec<Record>>,
    pub(crate) comfort: Vec<Comfort>,
}

/// A zone on its way through the year.
struct Course<'a> {
    zone: &'a Zone,
    lead: Option<Vec<AtHour>>,
    alternate: Option<Vec<AtHour>>,
    auxiliary: Vec<Option<Vec<AtHour>>>,
    cooler: Option<Vec<AtHour>>,
    room: f64,
    twin: Option<f64>,
    recovering: bool,
    recovered_for: u32,
    records: Vec<Record>,
    comfort: Comfort,
}

fn hours_of(placed: &Placed, outdoor: &[f64]) -> Option<Vec<AtHour>> {
    match &placed.machine {
        Machine::HeatPump(pump) => Some(pump.at_each_hour(outdoor)),
        _ => None,
    }
}

/// Lost in the ducts of a machine while it moves the air alone, kW.
fn lost(placed: &Placed, outdoor: f64) -> f64 {
    placed.form.map_or(0.0, |form| form.lost(outdoor))
}

fn at(hours: &Option<Vec<AtHour>>, h: usize) -> Option<&AtHour> {
    hours.as_ref().map(|hours| &hours[h])
}

/// Runs one option through `outdoor`, one value an hour.
pub(crate) fn simulate(zones: &[Zone], stores: &[Store], outdoor: &[f64]) -> Outcome {
    let mut courses: Vec<Course> = zones.iter().map(|zone| Course::new(zone, outdoor)).collect();
    let mut left = vec![f64::INFINITY; stores.len()];
    for (h, &t) in outdoor.iter().enumerate() {
        for (store, left) in stores.iter().zip(&mut left) {
            for &(hour, kwh) in &store.left_at {
                if hour == h {
                    *left = kwh;
                }
            }
        }
        let needs: Vec<f64> = courses.iter_mut().map(|course| course.begin_hour(h, t)).collect();
        let ran = run_within_stores(&courses, &needs, stores, &mut left, h, t);
        for ((course, need), machines) in courses.iter_mut().zip(needs).zip(ran) {
            course.end_hour(h, t, need, machines);
        }
    }
    let (hours, comfort) = courses.into_iter().map(|c| (c.records, c.comfort)).unzip();
    Outcome { hours, comfort }
}

/// Runs the heating of every zone; where a store cannot give it all, its draws shrink by one share.
fn run_within_stores(
    courses: &[Course],
    needs: &[f64],
    stores: &[Store],
    left: &mut [f64],
    h: usize,
    t: f64,
) -> Vec<Vec<Ran>> {
    // What each machine of each zone may burn, kW.
    let mut fuel: Vec<Vec<f64>> =
        courses.iter().map(|course| vec![f64::INFINITY; course.zone.machines().len()]).collect();
    let mut bound = vec![false; stores.len()];
    loop {
        let ran: Vec<Vec<Ran>> = courses
            .iter()
            .zip(needs)
            .zip(&fuel)
            .map(|((course, &need), fuel)| course.heat(h, t, need, fuel))
            .collect();
        let mut again = false;
        let mut drawn = vec![0.0; stores.len()];
        for (s, store) in stores.iter().enumerate() {
            for (course, ran) in courses.iter().zip(&ran) {
                for (placed, ran) in course.zone.machines().iter().zip(ran) {
                    if placed.store() == Some(s) {
                        drawn[s] += ran.draw;
                    }
                }
            }
            let allowed = left[s].min(store.greatest[h]);
            if bound[s] || drawn[s] <= allowed {
                continue;
            }
            bound[s] = true;
            again = true;
            for ((course, ran), fuel) in courses.iter().zip(&ran).zip(&mut fuel) {
                for (i, placed) in course.zone.machines().iter().enumerate() {
                    if placed.store() == Some(s) {
                        fuel[i] = ran[i].draw * allowed / drawn[s];
                    }
                }
            }
        }
        if !again {
            for (left, drawn) in left.iter_mut().zip(drawn) {
                *left = (*left - drawn).max(0.0);
            }
            return ran;
        }
    }
}

impl<'a> Course<'a> {
    fn new(zone: &'a Zone, outdoor: &[f64]) -> Self {
        let machine = zone.cooling.as_ref().and_then(|cooling| cooling.machine.as_ref());
        Course {
            zone,
            lead: hours_of(&zone.lead, outdoor),
            alternate: zone.alternate.as_ref().and_then(|a| hours_of(&a.placed, outdoor)),
            auxiliary: zone.auxiliary.iter().map(|placed| hours_of(placed, outdoor)).collect(),
            cooler: machine.map(|machine| machine.pump.cooling_at_each_hour(outdoor)),
            // Whoever begins in a set-back begins at the set point of that day.
            room: zone.set_points.iter().take(24).fold(f64::MIN, |most, t| most.max(*t)),
            twin: None,
            recovering: false,
            recovered_for: 0,
            records: Vec::new(),
            comfort: Comfort::default(),
        }
    }

    /// Settles recovery, and tells the hour's need.
    fn begin_hour(&mut self, h: usize, outdoor: f64) -> f64 {
        let set_points = &self.zone.set_points;
        if self.zone.heat_capacity > 0.0 {
            if h > 0 && set_points[h] > set_points[h - 1] {
                self.recovering = true;
                self.recovered_for = 0;
            }
            if self.recovering && (self.room >= set_points[h] - 0.1 || self.recovered_for >= 3) {
                self.recovering = false;
            }
            if self.recovering {
                self.recovered_for += 1;
            }
        }
        self.zone.need(h, outdoor, self.room)
    }

    /// Runs the heating machines for one hour, each with at most its `fuel`.
    fn heat(&self, h: usize, outdoor: f64, need: f64, fuel: &[f64]) -> Vec<Ran> {
        let zone = self.zone;
        let mut ran = Vec::new();
        match &zone.alternate {
            None => {
                let lost = lost(&zone.lead, outdoor);
                ran.push(zone.lead.run(at(&self.lead, h), need, 1.0, (fuel[0], lost)));
            }
            Some(alternate) => {
                let (lead, other) = self.change_over(alternate, h, outdoor, need, fuel);
                ran.push(lead);
                ran.push(other);
            }
        }
        for (i, placed) in zone.auxiliary.iter().enumerate() {
            let so_far: f64 = ran.iter().map(|r| r.heat).sum();
            let fuel = fuel[ran.len()];
            let mut before = zone.machines().into_iter().zip(&ran);
            let air_moves = before.any(|(m, ran)| m.form.is_some() && ran.heat > 1e-9);
            let lost = if air_moves { 0.0 } else { lost(placed, outdoor) };
            ran.push(placed.run(at(&self.auxiliary[i], h), need - so_far, 1.0, (fuel, lost)));
        }
        ran
    }

    /// Lead and alternate, never both at once.
    fn change_over(&self, alternate: &Alternate, h: usize, t: f64, need: f64, fuel: &[f64]) -> (Ran, Ran) {
        let placed = &alternate.placed;
        let lead_now = at(&self.lead, h);
        let other_now = at(&self.alternate, h);
        let (lead_lost, other_lost) = (lost(&self.zone.lead, t), lost(placed, t));
        let lead_full = self.zone.lead.full(lead_now, fuel[0], lead_lost);
        let other_full = placed.full(other_now, f64::INFINITY, other_lost);

        // One that its cut-out keeps off leaves the hour to the other, as one without fuel does below.
        if other_full <= 0.0 || (t >= alternate.lock_out && lead_full >= need) {
            return (self.zone.lead.run(lead_now, need, 1.0, (fuel[0], lead_lost)), Ran::default());
        }
        let only_the_other = t < alternate.lock_out || alternate.whole_hour;
        let (asked, time) = if only_the_other {
            (need, 1.0)
        } else if other_full > lead_full {
            let time = ((need - lead_full) / (other_full - lead_full)).min(1.0);
            (time * other_full, time)
        } else {
            (0.0, 0.0)
        };
        let ample = placed.run(other_now, asked, time, (f64::INFINITY, other_lost));
        let other = placed.run(other_now, asked, time, (fuel[1], other_lost));
        let fuelled = if ample.draw > 0.0 { other.draw / ample.draw } else { 1.0 };
        let time_left = 1.0 - time * fuelled;
        let lead = self.zone.lead.run(lead_now, need * time_left, time_left, (fuel[0], lead_lost));
        (lead, other)
    }

    /// Cools, moves the room on and counts.
    fn end_hour(&mut self, h: usize, outdoor: f64, need: f64, machines: Vec<Ran>) {
        let zone = self.zone;
        let heat: f64 = machines.iter().map(|ran| ran.heat).sum();
        let (cooled, cooling_power) = self.cool(h, outdoor, self.room);
        let recovering = self.recovering;
        let mut record = Record {
            room: None,
            mean: None,
            need,
            standby: self.standby(&machines, cooled),
            machines,
            cooled,
            cooling_power,
            recovering,
        };
        if zone.heat_capacity == 0.0 {
            if heat < 0.99 * need {
                self.comfort.hours_not_kept_warm += 1;
            }
            self.comfort.heat_not_delivered += need - heat;
        } else {
            if self.twin.is_none() && heat < need {
                self.twin = Some(self.room);
            }
            if let Some(twin) = self.twin {
                let ample = zone.need(h, outdoor, twin);
                let (twin_cooled, _) = self.cool(h, outdoor, twin);
                self.comfort.heat_not_delivered += ample - heat;
                self.twin = Some(zone.after(outdoor, twin, ample - twin_cooled).0);
            }
            let (end, mean) = zone.after(outdoor, self.room, heat - cooled);
            record.room = Some(end);
            record.mean = Some(mean);
            self.room = end;
            self.count(end, zone.set_points[h]);
        }
        self.records.push(record);
    }

    fn standby(&self, machines: &[Ran], cooled: f64) -> f64 {
        let cooling = self.zone.cooling.as_ref().and_then(|c| c.machine.as_ref());
        let mut standby = 0.0;
        for (i, (placed, ran)) in self.zone.machines().iter().zip(machines).enumerate() {
            let cools_too = i == 0 && cooling.is_some_and(|machine| machine.is_the_lead) && cooled > 0.0;
            match &placed.machine {
                Machine::HeatPump(pump) if ran.heat == 0.0 && !cools_too => standby += pump.standby,
                _ => {}
            }
        }
        match cooling {
            Some(machine) if !machine.is_the_lead && cooled == 0.0 => standby + machine.pump.standby,
            _ => standby,
        }
    }

    /// Sensible heat taken out and the power for it, from a room at `room`.
    fn cool(&self, h: usize, outdoor: f64, room: f64) -> (f64, f64) {
        let Some(cooling) = self.zone.cools_at(outdoor) else { return (0.0, 0.0) };
        let (Some(machine), Some(now)) = (&cooling.machine, at(&self.cooler, h)) else {
            return (0.0, 0.0);
        };
        let heat = if self.zone.heat_capacity == 0.0 {
            cooling.loss * (cooling.set_point - outdoor)
        } else {
            heat_to_reach(cooling.set_point, room, outdoor, cooling.loss, self.zone.heat_capacity)
        };
        let need = (cooling.gains - heat).max(0.0);
        if need == 0.0 {
            return (0.0, 0.0);
        }
        let total_wanted = need / machine.sensible_share / machine.duct_efficiency;
        let total = total_wanted.min(now.greatest.capacity);
        let mut power = now.power(total, machine.pump.cycling_loss, 0.0);
        power += machine.pump.fan * (total / now.least.capacity).min(1.0);
        (total * machine.sensible_share * machine.duct_efficiency, power)
    }

    fn count(&mut self, end: f64, set_point: f64) {
        let comfort = &mut self.comfort;
        let lowest = comfort.lowest_room.unwrap_or(f64::INFINITY);
        comfort.lowest_room = Some(lowest.min(end));
        let recovery = comfort.recovery_hours.get_or_insert(0);
        let below_60f = comfort.hours_below_60f.get_or_insert(0);
        let below_45f = comfort.hours_below_45f.get_or_insert(0);
        let degree_hours = comfort.degree_hours_short.get_or_insert(0.0);
        if end < (60.0 - 32.0) / 1.8 {
            *below_60f += 1;
        }
        if end < (45.0 - 32.0) / 1.8 {
            *below_45f += 1;
        }
        if self.recovering {
            *recovery += 1;
            return;
        }
        if end < set_point - 1.0 {
            comfort.hours_not_kept_warm += 1;
        }
        *degree_hours += (set_point - end).max(0.0);
    }
}

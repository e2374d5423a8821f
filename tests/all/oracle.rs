//! A slow, plain second opinion on the hourly simulation: one option, hour by hour, `f64` only.
//!
//! It imports nothing from the crate and was written without sight of it; the two are compared
//! hour by hour. It must never be made fast or clever. Temperatures °C, powers kW, heat capacity
//! kWh/K, one step an hour. Start at [`simulate`].
//!
//! Where the rules leave a choice, the plainest reading was taken:
//! - What tempers the air while a heat pump defrosts is on for its share of the time that the heat pump
//!   runs, and the two together give what is wanted: least and greatest are more by it. In a furnace's
//!   ducts it keeps what they keep of one kW more.
//! - Strips that temper are taken off what their bank can give, for all of the hour, whenever the heat pump could run.
//! - A furnace that tempers without taking turns has, in such hours, only the other minutes for the room.
//! - A pilot burns in every hour; in those in which the burner burns more, it is a part of that.
//! - An outdoor unit, a stove's fuelling of the day and a store bound all machines that hang on them by one
//!   share of what each would give, or burn, and each of them once an hour. A head so bound gives no more than
//!   that at any time in the hour. Cooling is shared for itself, after the heating; the twin's cooler is held to
//!   the same kW as the room's.
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
//! - Colder than the rows no level falls below nothing, and a lower level gives no more than a higher; from 5 K on, where
//!   a lower cut-out keeps the machine on, no level gives more than there, nor has a better COP.
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

mod caps;
mod cases;
mod machine;
mod zone;

use caps::Caps;

pub(crate) use machine::{AtHour, DuctForm, Furnace, HeatPump, Hour, Level, Machine, Placed, Ran, Row};
pub(crate) use zone::{Alternate, Cooling, CoolingMachine, OutdoorUnit, Shared, Store, Tempering, Zone};
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

/// Runs one option through `outdoor`, one value an hour; zones share nothing but stores.
pub(crate) fn simulate(zones: &[Zone], stores: &[Store], outdoor: &[f64]) -> Outcome {
    simulate_sharing(zones, &Shared { stores: stores.to_vec(), ..Shared::default() }, outdoor)
}

/// The same with all that zones may share.
pub(crate) fn simulate_sharing(zones: &[Zone], shared: &Shared, outdoor: &[f64]) -> Outcome {
    let mut courses: Vec<Course> = zones.iter().map(|zone| Course::new(zone, outdoor)).collect();
    let mut caps = Caps::new(zones, shared, outdoor);
    for (h, &t) in outdoor.iter().enumerate() {
        caps.begin_hour(h, zones, shared);
        let dew_point = shared.dew_points.as_ref().map(|list| list[h]);
        let needs: Vec<f64> = courses.iter_mut().map(|course| course.begin_hour(h, t)).collect();
        let ran = caps.run_within(&courses, &needs, h, (t, dew_point));
        let cooling = caps.share_cooling(&courses, h, t);
        for (((course, need), machines), cooling) in courses.iter_mut().zip(needs).zip(ran).zip(cooling) {
            course.end_hour(h, t, need, machines, cooling);
        }
    }
    let (hours, comfort) = courses.into_iter().map(|c| (c.records, c.comfort)).unzip();
    Outcome { hours, comfort }
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
    fn heat(&self, h: usize, weather: (f64, Option<f64>), need: f64, most: &[Hour]) -> Vec<Ran> {
        let (zone, outdoor) = (self.zone, weather.0);
        let mut ran = Vec::new();
        let tempered = self.tempered(weather, most);
        let lead = Hour { lost: lost(&zone.lead, outdoor), tempered, ..most[0] };
        match &zone.alternate {
            None => ran.push(zone.lead.run(at(&self.lead, h), need, 1.0, lead)),
            Some(alternate) => {
                let other = Hour { lost: lost(&alternate.placed, outdoor), ..most[1] };
                let (lead, other) = self.change_over(alternate, h, outdoor, need, (lead, other));
                ran.push(lead);
                ran.push(other);
            }
        }
        let running = ran[0].share;
        let all_most = most;
        for (i, placed) in zone.auxiliary.iter().enumerate() {
            let so_far: f64 = ran.iter().map(|r| r.heat).sum();
            let most = most[ran.len()];
            let mut own = placed.clone();
            let lent = self.lent(i, h, weather, all_most);
            match &mut own.machine {
                Machine::Resistance(capacity) => *capacity = (*capacity - lent).max(0.0),
                // So many minutes fewer of its hour: as a smaller one.
                Machine::Furnace(furnace) => {
                    let left = 1.0 - lent / furnace.full();
                    furnace.input *= left;
                    furnace.blower *= left;
                }
                Machine::HeatPump(_) => {}
            }
            let placed = &own;
            let mut before = zone.machines().into_iter().zip(&ran);
            let air_moves = before.any(|(m, ran)| m.form.is_some() && ran.heat > 1e-9);
            let lost = if air_moves { 0.0 } else { lost(placed, outdoor) };
            ran.push(placed.run(at(&self.auxiliary[i], h), need - so_far, 1.0, Hour { lost, ..most }));
        }
        if tempered > 0.0 {
            self.share_out(tempered * running, &mut ran);
        }
        ran
    }

    /// kW by which the lead's air is warmed while it runs and defrosts: from 25 to 42 °F, not where the dew
    /// point is more than 5 K below, and not by a furnace that is short of fuel.
    fn tempered(&self, (outdoor, dew_point): (f64, Option<f64>), most: &[Hour]) -> f64 {
        let Some(tempering) = &self.zone.tempering else { return 0.0 };
        let cold = ((25.0 - 32.0) / 1.8..=(42.0 - 32.0) / 1.8).contains(&outdoor);
        if !cold || dew_point.is_some_and(|dew| outdoor - dew > 5.0) {
            return 0.0;
        }
        let kw = match (tempering.strips, self.furnace_that_tempers()) {
            (Some(kw), _) => kw,
            (None, Some((place, furnace))) if most[place].fuel == f64::INFINITY => furnace.full(),
            _ => 0.0,
        };
        kw * tempering.minutes / tempering.of_minutes
    }

    /// The furnace that tempers and its place: the alternate, or else the auxiliary of that place.
    fn furnace_that_tempers(&self) -> Option<(usize, &Furnace)> {
        let place = match (&self.zone.alternate, self.zone.tempering?.bank) {
            (Some(Alternate { placed: Placed { machine: Machine::Furnace(_), .. }, .. }), _) => 1,
            (alternate, Some(i)) => 1 + usize::from(alternate.is_some()) + i,
            _ => return None,
        };
        match &self.zone.machines()[place].machine {
            Machine::Furnace(furnace) => Some((place, furnace)),
            _ => None,
        }
    }

    /// kW that the auxiliary of that place gives to temper the lead's air, taken off what it has for the room
    /// whenever the lead could run.
    fn lent(&self, place: usize, h: usize, weather: (f64, Option<f64>), most: &[Hour]) -> f64 {
        let Machine::HeatPump(pump) = &self.zone.lead.machine else { return 0.0 };
        let Some(tempering) = self.zone.tempering.filter(|t| t.bank == Some(place)) else { return 0.0 };
        let own_place = 1 + usize::from(self.zone.alternate.is_some()) + place;
        if tempering.strips.is_none() && self.furnace_that_tempers().is_none_or(|(at, _)| at != own_place) {
            return 0.0;
        }
        let locked_out = self.zone.alternate.as_ref().is_some_and(|a| weather.0 < a.lock_out);
        let could_run = at(&self.lead, h).is_some_and(|now| now.full(pump.fan) > 0.0) && !locked_out;
        if could_run { self.tempered(weather, most) } else { 0.0 }
    }

    /// Heat of the machine of that place without what tempers its air; of heads, which blow into no ducts.
    fn by_itself(&self, place: usize, ran: &[Ran], weather: (f64, Option<f64>), most: &[Hour]) -> f64 {
        let strips = self.zone.tempering.as_ref().is_some_and(|tempering| tempering.strips.is_some());
        let tempered = if place == 0 && strips { self.tempered(weather, most) * ran[0].share } else { 0.0 };
        ran[place].heat - tempered
    }

    /// Gives what tempered the lead's air, `kw` on the mean of the hour, to whoever drew for it: strips are
    /// counted with the lead, a furnace has heat, fuel and blower of its own. What its ducts lose of one
    /// kW more is the furnace's, all else the lead's.
    fn share_out(&self, kw: f64, ran: &mut [Ran]) {
        let (Some(tempering), lead) = (&self.zone.tempering, &self.zone.lead) else { return };
        if tempering.strips.is_some() {
            ran[0].draw += kw;
            return;
        }
        let Some((place, furnace)) = self.furnace_that_tempers() else { return };
        let share = kw / furnace.full();
        let heat = kw * lead.form.map_or(lead.duct_efficiency, |form| form.kept);
        ran[0].heat -= heat;
        ran[place].heat += heat;
        ran[place].draw += share * furnace.burning();
        ran[place].side += share * furnace.blower;
    }

    /// Lead and alternate, never both at once.
    fn change_over(
        &self,
        alternate: &Alternate,
        h: usize,
        t: f64,
        need: f64,
        (lead_hour, other_hour): (Hour, Hour),
    ) -> (Ran, Ran) {
        let placed = &alternate.placed;
        let lead_now = at(&self.lead, h);
        let other_now = at(&self.alternate, h);
        let ample_hour = Hour { fuel: f64::INFINITY, ..other_hour };
        let lead_full = self.zone.lead.full(lead_now, lead_hour);
        let other_full = placed.full(other_now, ample_hour);

        // One that its cut-out keeps off leaves the hour to the other, as one without fuel does below.
        if other_full <= 0.0 || (t >= alternate.lock_out && lead_full >= need) {
            return (self.zone.lead.run(lead_now, need, 1.0, lead_hour), Ran::default());
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
        let ample = placed.run(other_now, asked, time, ample_hour);
        let other = placed.run(other_now, asked, time, other_hour);
        let fuelled = if ample.draw > 0.0 { other.draw / ample.draw } else { 1.0 };
        let time_left = 1.0 - time * fuelled;
        let lead = self.zone.lead.run(lead_now, need * time_left, time_left, lead_hour);
        (lead, other)
    }

    /// Cools, moves the room on and counts.
    fn end_hour(&mut self, h: usize, outdoor: f64, need: f64, machines: Vec<Ran>, most_cooling: f64) {
        let zone = self.zone;
        let heat: f64 = machines.iter().map(|ran| ran.heat).sum();
        let (cooled, cooling_power) = self.cool(h, outdoor, self.room, most_cooling);
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
                let (twin_cooled, _) = self.cool(h, outdoor, twin, most_cooling);
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

    /// Total cooling that the cooler gives for a room at `room`, no more than `most` kW of it.
    fn total_cooling(&self, h: usize, outdoor: f64, room: f64, most: f64) -> f64 {
        let Some(cooling) = self.zone.cools_at(outdoor) else { return 0.0 };
        let (Some(machine), Some(now)) = (&cooling.machine, at(&self.cooler, h)) else { return 0.0 };
        let heat = if self.zone.heat_capacity == 0.0 {
            cooling.loss * (cooling.set_point - outdoor)
        } else {
            heat_to_reach(cooling.set_point, room, outdoor, cooling.loss, self.zone.heat_capacity)
        };
        let need = (cooling.gains - heat).max(0.0);
        (need / machine.sensible_share / machine.duct_efficiency).min(now.greatest.capacity).min(most)
    }

    /// Sensible heat taken out and the power for it, from a room at `room`.
    fn cool(&self, h: usize, outdoor: f64, room: f64, most: f64) -> (f64, f64) {
        let total = self.total_cooling(h, outdoor, room, most);
        let machine = self.zone.cooling.as_ref().and_then(|cooling| cooling.machine.as_ref());
        let (Some(machine), Some(now)) = (machine, at(&self.cooler, h)) else { return (0.0, 0.0) };
        if total == 0.0 {
            return (0.0, 0.0);
        }
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

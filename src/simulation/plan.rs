//! An option laid on a weather run: hour maps, set points and room figures, ready to be advanced.
//!
//! Built once an option and weather, never changed. Start at [`OptionPlan::new`].

use std::ops::Range;

use super::bank::Bank;
use super::bound::{Bound, BoundBy};
use super::design::{OptionDesign, ZoneDesign};
use super::end_use::EndUse;
use super::frost::frosty_hours;
use super::hour_map::{HourMap, HourMaps, OffHours};
use super::household::HouseholdPlan;
use super::kernel::{Handover, MOST_HEATERS, Worth};
use super::source::{self, cooling_source_c, heating_source_c};
use super::tempering::Tempering;
use crate::equipment::output::MachineHour;
use crate::equipment::{Cooling, Heating, Machine, MachineKind};
use crate::fuel::FuelId;
use crate::load::{DuctLine, RoomHour, Zone};
use crate::weather::OutdoorRun;

/// An option ready to be advanced.
#[derive(Debug, Clone, PartialEq)]
pub struct OptionPlan {
    /// Outdoor dry-bulb by hour, °C.
    pub outdoor_c: Vec<f64>,
    /// The zones, in the house's order.
    pub zones: Vec<ZonePlan>,
    /// What people use beside heating and cooling.
    pub household: HouseholdPlan,
    /// What some machines may not go beyond; empty for most options.
    pub bounds: Vec<Bound>,
}

/// One zone of it.
#[derive(Debug, Clone, PartialEq)]
pub struct ZonePlan {
    /// Loss and gains while heating, outdoors still open.
    pub heating: RoomHour<f64>,
    /// Loss and gains in hours warmer than [`Self::cooling_above_c`].
    pub cooling: RoomHour<f64>,
    /// Outdoors warmer than this, the cooling figures hold, °C; infinity where there are none.
    pub cooling_above_c: f64,
    /// Heat capacity, kWh/K.
    pub heat_capacity_kwh_k: f64,
    /// Windows are opened above this, °C.
    pub vent_c: f64,
    /// Heating set points by hour, °C.
    pub set_points_c: Vec<f64>,
    /// Heaters in order.
    pub heaters: Vec<PlannedHeater>,
    /// How the second heater takes turns with the first, if it does.
    pub handover: Option<PlannedHandover>,
    /// Whether backup heat is held back while the room recovers.
    pub staged_recovery: bool,
    /// Strips that temper the air while the first heater defrosts, kW on the mean of each hour that it
    /// runs all through; counted in that heater's hours. Empty where there are none.
    pub defrost_kw: Vec<f64>,
    /// The bank that those strips are a part of.
    pub bank: Option<Bank>,
    /// The cooler and its set point, if there is one.
    pub cooler: Option<PlannedCooler>,
    /// Machines that draw standby power in hours without output.
    pub standby: Vec<Standby>,
    /// Heat that a water heater takes from the room in each hour, kW; empty where none does.
    pub heat_taken_kw: Vec<f64>,
    /// A furnace that tempers the air while the first heater defrosts, and whether it does hour by hour.
    pub tempering: Option<(Tempering, Vec<bool>)>,
    /// What the ducts keep of the heaters' output, where that depends on it.
    pub duct_line: Option<DuctLine>,
    /// Whether it has none of what few zones have: turns by cost, staged recovery, heat taken from the
    /// room, ducts by output, a furnace that tempers. Such an hour is quicker.
    pub is_plain: bool,
}

/// How two heaters take turns through the hours.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedHandover {
    /// Colder than this outdoors the first is locked out, °C; minus infinity for never.
    pub lockout_c: f64,
    /// Whether an hour that the first cannot carry goes wholly to the second.
    pub whole_hour: bool,
    /// What a kWh is worth, if hours go to whichever heats for less: on the mean of the year, and by
    /// hour where [`OptionPlan::weigh`] was told.
    pub on_cost: Option<(Worth<f64>, Vec<Worth<f64>>)>,
}

impl PlannedHandover {
    /// The handover when it is `outdoor_c` outside, whatever a kWh is worth.
    #[inline(always)]
    pub fn by_temperature(&self, outdoor_c: f64) -> Handover<f64> {
        Handover {
            locked_out: if outdoor_c < self.lockout_c { 1.0 } else { 0.0 },
            whole_hour: self.whole_hour,
            worth: None,
        }
    }

    /// What a kWh is worth in hour `i`, where that decides.
    #[inline(always)]
    pub fn worth(&self, i: usize) -> Option<Worth<f64>> {
        self.on_cost.as_ref().map(|(mean, hours)| *hours.get(i).unwrap_or(mean))
    }

    fn part(&self, span: &Range<usize>) -> Self {
        let cut = |hours: &[Worth<f64>]| hours.iter().skip(span.start).take(span.len()).copied().collect();
        Self { on_cost: self.on_cost.as_ref().map(|(mean, hours)| (*mean, cut(hours))), ..*self }
    }
}

/// A heater of a zone.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedHeater {
    /// Its place in the list of machines.
    pub machine: usize,
    /// What it can do by hour.
    pub hours: HourMap,
    /// Hours in which it was off, and why.
    pub off: OffHours,
    /// Cycling loss, C_D.
    pub cycling_loss: f64,
    /// Whether its heat goes through the zone's ducts.
    pub ducted: bool,
    /// Share of its heat that reaches the room; beside [`ZonePlan::duct_line`] of one more kW.
    pub ducts: f64,
    /// `1/ducts`: heat at the machine for each kW that is to reach the room.
    pub before_ducts: f64,
    /// The fuel of its main draw.
    pub fuel: FuelId,
    /// What its draw is for.
    pub end_use: EndUse,
}

/// A cooler of a zone.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedCooler {
    /// Its place in the list of machines.
    pub machine: usize,
    /// What it can do by hour.
    pub hours: HourMap,
    /// Cycling loss, C_D.
    pub cycling_loss: f64,
    /// Sensible cooling in the room for each kW of total cooling.
    pub sensible: f64,
    /// Cooling set point, °C.
    pub set_point_c: f64,
}

/// A machine that waits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standby {
    /// Its draw while it gives nothing, kW.
    pub kw: f64,
    /// Its place among the zone's heaters, if it is one.
    pub heater: Option<usize>,
    /// Whether it is the zone's cooler.
    pub is_cooler: bool,
}

impl OptionPlan {
    /// Lays `design` on the hours of `run`; machines and zones are those the design points into.
    pub fn new(design: &OptionDesign, zones: &[Zone], machines: &[Machine], run: &OutdoorRun) -> Self {
        Self::with_maps(design, (zones, machines), run, None)
    }

    /// The same with hour maps that are made already.
    pub fn with_maps(
        design: &OptionDesign,
        (zones, machines): (&[Zone], &[Machine]),
        run: &OutdoorRun,
        maps: Option<&HourMaps>,
    ) -> Self {
        let laid = Laid { machines, run, maps };
        let plans = zones.iter().zip(&design.zones);
        let mut plans: Vec<ZonePlan> = plans.map(|(zone, d)| zone_plan(zone, d, &laid)).collect();
        let mut household = HouseholdPlan::new(&design.household, &run.calendar);
        if let Some((place, taken)) = household.taken_kw.take()
            && let Some(zone) = plans.get_mut(place)
        {
            zone.heat_taken_kw = taken;
            zone.is_plain = false;
        }
        let bounds = bounds(&plans, machines, run);
        Self { outdoor_c: run.dry_bulb_c.to_vec(), bounds, zones: plans, household }
    }

    /// Tells what a kWh of a fuel is worth in each hour (from 0), in any unit, to the zones whose
    /// heaters take turns by cost.
    pub fn weigh(&mut self, worth: impl Fn(FuelId, usize) -> f64) {
        if self.takes_turns_by_cost() {
            (0..self.outdoor_c.len()).for_each(|i| self.weigh_hour(i, |fuel| worth(fuel, i)));
        }
    }

    /// The same for hour `i` alone; hours are told in order, or anew.
    pub fn weigh_hour(&mut self, i: usize, worth: impl Fn(FuelId) -> f64) {
        for zone in &mut self.zones {
            let fuel = |place: usize| zone.heaters.get(place).map_or(FuelId::ELECTRICITY, |h| h.fuel);
            let (lead, alternate) = (fuel(0), fuel(1));
            let Some((mean, list)) = zone.handover.as_mut().and_then(|h| h.on_cost.as_mut()) else {
                continue;
            };
            if list.len() <= i {
                list.resize(i + 1, *mean);
            }
            if let Some(hour) = list.get_mut(i) {
                let side = worth(FuelId::ELECTRICITY);
                *hour = Worth { lead: worth(lead), alternate: worth(alternate), side };
            }
        }
    }

    /// Whether the heaters of some zone take turns by cost.
    pub fn takes_turns_by_cost(&self) -> bool {
        self.zones.iter().any(|z| z.handover.as_ref().is_some_and(|h| h.on_cost.is_some()))
    }

    /// The hours `span`, which begins at a midnight, alone and counted from 0 again; memory of cut-outs is
    /// kept, as it is in the hours.
    #[must_use]
    pub fn part(&self, span: &Range<usize>) -> Self {
        let cut = |values: &[f64]| values.iter().skip(span.start).take(span.len()).copied().collect();
        Self {
            outdoor_c: cut(&self.outdoor_c),
            zones: self.zones.iter().map(|z| z.part(span, cut)).collect(),
            household: self.household.part(span),
            bounds: self.bounds.iter().map(|b| b.part(span)).collect(),
        }
    }

    /// Switches heaters of `fuel` off in the hours in which `off` is true, as a supplier does; backup heat
    /// stays on.
    pub fn interrupt(&mut self, fuel: FuelId, off: &[bool]) {
        let heaters = self.zones.iter_mut().flat_map(|zone| &mut zone.heaters);
        for heater in heaters.filter(|h| h.fuel == fuel && h.end_use == EndUse::SpaceHeating) {
            heater.hours = heater.hours.off_in(off);
            heater.off.interrupted = off.iter().filter(|off| **off).count();
        }
        self.zones.iter_mut().for_each(|zone| zone.lend(&self.outdoor_c));
    }

    /// The same with some machines off in every hour; `machines` are places in the list of machines.
    #[must_use]
    pub fn without(&self, machines: &[usize]) -> Self {
        let mut plan = self.clone();
        for zone in &mut plan.zones {
            let heaters = zone.heaters.iter_mut().filter(|h| machines.contains(&h.machine));
            heaters.for_each(|h| h.hours = HourMap::off());
            let stands =
                |place: usize| zone.heaters.get(place).is_some_and(|h| !machines.contains(&h.machine));
            zone.tempering = zone.tempering.take().filter(|(t, _)| stands(t.place));
            zone.bank = zone.bank.take().filter(|bank| stands(bank.place));
            zone.lend(&plan.outdoor_c);
            let cooler = zone.cooler.iter_mut().filter(|c| machines.contains(&c.machine));
            cooler.for_each(|c| c.hours = HourMap::off());
        }
        plan
    }
}

fn bounds(zones: &[ZonePlan], machines: &[Machine], run: &OutdoorRun) -> Vec<Bound> {
    let placed = zones.iter().enumerate();
    let placed = placed.flat_map(|(z, zone)| zone.heaters.iter().enumerate().map(move |(p, h)| ((z, p), h)));
    let placed: Vec<_> =
        placed.filter_map(|(at, heater)| Some((at, machines.get(heater.machine)?))).collect();
    let fuelled = placed.iter().filter_map(|(at, machine)| {
        let by = BoundBy::DailyFuelling(machine.daily_fuelling_kwh?);
        Some(Bound { machines: vec![*at], by })
    });
    let coolers = zones.iter().enumerate();
    let coolers: Vec<_> = coolers
        .filter_map(|(z, zone)| Some(((z, MOST_HEATERS), machines.get(zone.cooler.as_ref()?.machine)?)))
        .collect();
    let shared = machines.iter().enumerate().flat_map(|(unit, machine)| {
        let on_it = |heads: &[((usize, usize), &Machine)], hours| {
            let heads = heads.iter().filter(|(_, head)| head.outdoor_unit == Some(unit));
            let machines: Vec<_> = heads.map(|(at, _)| *at).collect();
            (!machines.is_empty()).then_some(Bound { machines, by: BoundBy::OutdoorUnit(hours) })
        };
        let heats = machine.heating.as_ref().map(|heating| HourMap::heating(heating, &run.dry_bulb_c).0);
        let cools = machine.cooling.as_ref().map(|cooling| HourMap::cooling(cooling, &run.dry_bulb_c));
        let heated = heats.and_then(|hours| on_it(&placed, hours));
        heated.into_iter().chain(cools.and_then(|hours| on_it(&coolers, hours)))
    });
    fuelled.chain(shared).collect()
}

impl ZonePlan {
    /// Takes what tempers the air off what its bank can give beside.
    fn lend(&mut self, outdoor_c: &[f64]) {
        let (Some(bank), Some(first)) = (&self.bank, self.heaters.first()) else { return };
        let lockout_c = self.handover.as_ref().map_or(f64::NEG_INFINITY, |h| h.lockout_c);
        let hours = bank.hours(outdoor_c, lockout_c, &self.defrost_kw, &first.hours);
        if let Some(heater) = self.heaters.get_mut(bank.place) {
            heater.hours = hours;
        }
    }

    fn part(&self, span: &Range<usize>, cut: impl Fn(&[f64]) -> Vec<f64>) -> Self {
        let heaters = self.heaters.iter();
        let cooler = self.cooler.as_ref();
        Self {
            set_points_c: cut(&self.set_points_c),
            heat_taken_kw: cut(&self.heat_taken_kw),
            defrost_kw: cut(&self.defrost_kw),
            bank: self.bank.as_ref().map(|bank| bank.part(span.clone())),
            tempering: self
                .tempering
                .as_ref()
                .map(|(t, hours)| (*t, hours.iter().skip(span.start).take(span.len()).copied().collect())),
            handover: self.handover.as_ref().map(|h| h.part(span)),
            heaters: heaters.map(|h| PlannedHeater { hours: h.hours.part(span.clone()), ..*h }).collect(),
            cooler: cooler.map(|c| PlannedCooler { hours: c.hours.part(span.clone()), ..*c }),
            standby: self.standby.clone(),
            ..*self
        }
    }

    /// The room when it is `outdoor_c` outside and nothing takes heat from it.
    #[inline(always)]
    pub fn room_at(&self, outdoor_c: f64) -> RoomHour<f64> {
        let room = if outdoor_c > self.cooling_above_c { &self.cooling } else { &self.heating };
        room.at(outdoor_c)
    }

    /// The room in hour `i`, when it is `outdoor_c` outside.
    #[inline(always)]
    pub fn room_in(&self, i: usize, outdoor_c: f64) -> RoomHour<f64> {
        let room = self.room_at(outdoor_c);
        self.heat_taken_kw.get(i).map_or(room, |taken| room.with_less_gains(*taken))
    }
}

/// What zones are laid on.
struct Laid<'a> {
    machines: &'a [Machine],
    run: &'a OutdoorRun,
    maps: Option<&'a HourMaps>,
}

impl Laid<'_> {
    /// The hours of a heater, whose map goes by the temperatures of its `source` where it has one.
    fn heating(&self, heating: &Heating, source: Option<&[f64]>) -> (HourMap, OffHours) {
        match (source, self.maps) {
            (None, Some(maps)) => maps.heating(heating, &self.run.dry_bulb_c),
            (source, _) => HourMap::heating(heating, source.unwrap_or(&self.run.dry_bulb_c)),
        }
    }

    fn cooling(&self, cooling: &Cooling, source: Option<&[f64]>) -> HourMap {
        match (source, self.maps) {
            (None, Some(maps)) => maps.cooling(cooling, &self.run.dry_bulb_c),
            (source, _) => HourMap::cooling(cooling, source.unwrap_or(&self.run.dry_bulb_c)),
        }
    }
}

fn zone_plan(zone: &Zone, design: &ZoneDesign, laid: &Laid<'_>) -> ZonePlan {
    let Laid { machines, run, .. } = *laid;
    let heaters: Vec<_> = design.heaters.iter().take(MOST_HEATERS).enumerate().collect();
    let heaters = heaters.into_iter();
    let mut heaters: Vec<_> =
        heaters.filter_map(|(place, i)| heater(zone, (*i, place), machines.get(*i)?, laid)).collect();
    let tempers = design.defrost_aux.is_some() || design.tempering.is_some();
    let frosty = if tempers { frosty_hours(run) } else { Vec::new() };
    let defrost_kw: Vec<f64> = design.defrost_aux.map_or_else(Vec::new, |aux| {
        frosty.iter().map(|frosty| if *frosty { aux.running_kw() } else { 0.0 }).collect()
    });
    if let (Some(aux), Some(first)) = (design.defrost_aux, heaters.first_mut()) {
        let with_strips = |hour: MachineHour<f64>| hour.with_electric_heat(aux.running_kw());
        let on = |i: usize| defrost_kw.get(i).is_some_and(|kw| *kw > 0.0);
        let hours = std::mem::replace(&mut first.hours, HourMap::off());
        first.hours = hours.changed(defrost_kw.len(), with_strips, on);
    }
    let bank = design.defrost_aux.and_then(|aux| {
        let place = aux.bank?;
        Some(Bank { place, whole: heaters.get(place)?.hours.clone(), lent_kw: aux.running_kw() })
    });
    let cooler = design.cooler.and_then(|i| cooler(zone, i, machines.get(i)?, laid));
    let room = |loss_kw_k, gains_kw| RoomHour::new(loss_kw_k, gains_kw, zone.decay(loss_kw_k), f64::NAN);
    let heating = room(zone.loss_kw_k, zone.gains_kw);
    let mut plan = ZonePlan {
        heating,
        cooling: zone.cooling.map_or(heating, |c| room(c.loss_kw_k, c.gains_kw)),
        cooling_above_c: zone.cooling.map_or(f64::INFINITY, |c| c.balance_temperature_c),
        heat_capacity_kwh_k: zone.heat_capacity_kwh_k,
        vent_c: zone.vent_c,
        set_points_c: run.calendar.stamps().iter().map(|s| zone.heating.at(*s)).collect(),
        standby: standby(&heaters, cooler.as_ref(), machines),
        handover: design.changeover.map(|c| PlannedHandover {
            lockout_c: c.compressor_lockout_c.unwrap_or(f64::NEG_INFINITY),
            whole_hour: c.whole_hour,
            on_cost: c.on_cost.map(|mean| (mean, Vec::new())),
        }),
        staged_recovery: design.staged_recovery,
        defrost_kw,
        bank,
        heaters,
        cooler,
        heat_taken_kw: Vec::new(),
        tempering: design.tempering.map(|t| (t, frosty)),
        duct_line: zone.duct_line,
        is_plain: !design.staged_recovery
            && zone.duct_line.is_none()
            && design.tempering.is_none()
            && design.changeover.is_none_or(|c| c.on_cost.is_none()),
    };
    plan.lend(&run.dry_bulb_c);
    plan
}

fn heater(
    zone: &Zone,
    (index, place): (usize, usize),
    machine: &Machine,
    laid: &Laid<'_>,
) -> Option<PlannedHeater> {
    let run = laid.run;
    let heating = machine.heating.as_ref()?;
    let source = source::hours(machine, zone, run, heating_source_c);
    let (mut hours, off) = laid.heating(heating, source.as_deref());
    if let Some((from, to)) = heating.pilot.and_then(|p| p.lit) {
        let stamps = run.calendar.stamps();
        let out = |hour: MachineHour<f64>| MachineHour { pilot: 0.0, ..hour };
        let is_out = |i: usize| !stamps.get(i).is_some_and(|s| from.through(to, *s));
        hours = hours.changed(stamps.len(), out, is_out);
    }
    let kept = zone.duct_line.map_or(zone.duct_efficiency, |line| line.kept);
    let ducts = if machine.ducted { kept } else { 1.0 };
    let is_backup = place > 0 && machine.kind == MachineKind::Resistance;
    Some(PlannedHeater {
        machine: index,
        hours,
        off,
        cycling_loss: heating.cycling_loss,
        ducted: machine.ducted,
        ducts,
        before_ducts: 1.0 / ducts,
        fuel: machine.fuel,
        end_use: if is_backup { EndUse::BackupHeat } else { EndUse::SpaceHeating },
    })
}

fn cooler(zone: &Zone, index: usize, machine: &Machine, laid: &Laid<'_>) -> Option<PlannedCooler> {
    let cooling = machine.cooling.as_ref()?;
    let source = source::hours(machine, zone, laid.run, cooling_source_c);
    let ducts = if machine.ducted { zone.duct_efficiency } else { 1.0 };
    Some(PlannedCooler {
        machine: index,
        hours: laid.cooling(cooling, source.as_deref()),
        cycling_loss: cooling.cycling_loss,
        sensible: cooling.sensible_heat_ratio * ducts,
        set_point_c: zone.cooling?.set_point_c,
    })
}

fn standby(heaters: &[PlannedHeater], cooler: Option<&PlannedCooler>, machines: &[Machine]) -> Vec<Standby> {
    let cooling = cooler.map(|c| c.machine);
    let of = |machine: usize, heater, is_cooler| Standby {
        kw: machines.get(machine).map_or(0.0, |m| m.standby_kw),
        heater,
        is_cooler,
    };
    let mut list: Vec<_> =
        heaters.iter().enumerate().map(|(i, h)| of(h.machine, Some(i), cooling == Some(h.machine))).collect();
    if let Some(machine) = cooling.filter(|m| heaters.iter().all(|h| h.machine != *m)) {
        list.push(of(machine, None, true));
    }
    list.retain(|s| s.kw > 0.0);
    list
}

//! The bin method: the same `hour` function on so many hours at each outdoor temperature.
//!
//! Steady, without memory: no room, no set-back, no order of hours. What a spreadsheet can follow.
//! Start at [`bin_rows`].

use super::design::ZoneDesign;
use super::end_use::EndUse;
use super::folds::Folds;
use super::frost::FrostShares;
use super::kernel::{Cooler, Handover, Heater, ZoneHour, ZoneOutcome, need};
use super::source::{cooling_source_c, heating_source_c};
use super::tempering::Tempering;
use super::through::Through;
use super::working::{Step, put_shared, tell_defrosting};
use crate::equipment::output::MachineHour;
use crate::equipment::{Machine, MachineKind, Presence};
use crate::fuel::FuelId;
use crate::load::{RoomHour, Zone};
use crate::weather::Bin;

/// One bin of one zone.
#[derive(Debug, Clone, PartialEq)]
pub struct BinRow {
    /// The bin's middle, °C.
    pub outdoor_c: f64,
    /// Hours in the bin.
    pub hours: f64,
    /// Heat wanted in the room, kW.
    pub need_kw: f64,
    /// Heat that reaches the room, kW.
    pub heat_kw: f64,
    /// Sensible cooling in the room, kW.
    pub cooling_kw: f64,
    /// What the first heater could give at most, before ducts, kW, a day's fuelling spread over the day; 0
    /// where it is locked out.
    pub capacity_kw: f64,
    /// What of that could reach the room, kW.
    pub capacity_in_room_kw: f64,
    /// What the first heater gives, before ducts, kW.
    pub first_heat_kw: f64,
    /// What of that reaches the room, kW.
    pub first_in_room_kw: f64,
    /// The first heater's draw, fan included, kW.
    pub first_draw_kw: f64,
    /// Heat from backup in the room, kW.
    pub backup_kw: f64,
    /// Energy drawn in all the bin's hours, kWh, by fuel and use.
    pub energy: Vec<(FuelId, EndUse, f64)>,
}

/// A zone of an option through the bins.
///
/// Each bin runs the hour function with no heat capacity at the ordinary set point. Between a
/// cut-out and a cut-on the heater is on for half of the bin's hours, as 10 CFR 430 Appendix M1
/// counts it. Air is tempered in the share of them that is frosty.
pub fn bin_rows(
    zone: &Zone,
    design: &ZoneDesign,
    machines: &[Machine],
    bins: &[Bin],
    frost: FrostShares,
) -> Vec<BinRow> {
    let served = Served::of_year(zone, design, machines, frost);
    bins.iter().map(|bin| served.bin(*bin)).collect()
}

/// A zone of an option in a steady hour at `outdoor_c` of a night in which the cold has come and stays: a heater
/// between its cut-out and its cut-on counts as off, as it is from the first hour below the cut-out on. Its air
/// counts as moist.
pub fn cold_row(zone: &Zone, design: &ZoneDesign, machines: &[Machine], outdoor_c: f64) -> BinRow {
    let served = Served::new(zone, design, machines);
    served.row(Bin { temperature_c: outdoor_c, hours: 1.0 }, &served.outcome(outdoor_c, false), 1.0)
}

/// A steady hour at `outdoor_c` of such a night.
pub fn steady_hour(
    zone: &Zone,
    design: &ZoneDesign,
    machines: &[Machine],
    outdoor_c: f64,
) -> ZoneOutcome<f64> {
    Served::new(zone, design, machines).with_zone_hour(outdoor_c, false, |zone, folds| folds.hour(zone))
}

/// The arithmetic of a steady hour at `outdoor_c`, every machine that is not cut out there running, and
/// its row of the worksheet.
pub fn work_bin(
    zone: &Zone,
    design: &ZoneDesign,
    machines: &[Machine],
    outdoor_c: f64,
    frost: FrostShares,
) -> (Vec<Step>, BinRow) {
    let served = Served::of_year(zone, design, machines, frost);
    let (mut steps, _) = served.with_zone_hour(outdoor_c, true, |zone, folds| folds.work(zone));
    let tempers = design.defrost_aux.is_some() || design.tempering.is_some();
    if let Some(share) = frost.known_at(outdoor_c).filter(|_| tempers) {
        // Behind the need, which comes first always.
        steps.insert(steps.len().min(1), Step::Frosty { share });
    }
    let of_bank = design.defrost_aux.is_some_and(|aux| aux.bank.is_some());
    tell_defrosting(&mut steps, Some(served.defrost_kw(outdoor_c)), of_bank);
    served.tell_units(&mut steps, outdoor_c);
    let bin = Bin { temperature_c: outdoor_c, hours: 1.0 };
    (steps, served.row(bin, &served.outcome(outdoor_c, true), bin.hours))
}

/// From where the second heater of two that take turns by cost heats for less.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum EconomicBalance {
    /// Colder outdoors than this, °C.
    Below(f64),
    /// At every outdoor temperature at which heat is needed.
    Everywhere,
    /// At none.
    Nowhere,
}

/// The economic balance temperature of a zone at mean prices and steady load; nothing where no
/// heaters take turns by cost.
///
/// Searched from `coldest_c` upwards to the zone's balance temperature in steps of 0.1 K, then halved
/// to 0.001 K; a tie counts for the first.
pub fn economic_balance(
    zone: &Zone,
    design: &ZoneDesign,
    machines: &[Machine],
    coldest_c: f64,
    frost: FrostShares,
) -> Option<EconomicBalance> {
    let worth = design.changeover?.on_cost?;
    let served = Served::of_year(zone, design, machines, frost);
    let second = |t: f64| {
        served.with_zone_hour(t, true, |z, _| match z.heaters {
            [lead, alternate, ..] => worth.second_is_cheaper(need(z), lead, alternate) > 0.0,
            _ => false,
        })
    };
    let steps = ((zone.balance_temperature_c - coldest_c) / 0.1).floor().max(0.0) as usize;
    let at = |i: usize| coldest_c + 0.1 * i as f64;
    let Some(first_wins) = (0..steps).find(|i| !second(at(*i))) else {
        return Some(EconomicBalance::Everywhere);
    };
    if first_wins == 0 {
        return Some(EconomicBalance::Nowhere);
    }
    let (mut dear, mut cheap) = (at(first_wins - 1), at(first_wins));
    while cheap - dear > 1e-3 {
        let middle = (cheap + dear) / 2.0;
        if second(middle) { dear = middle } else { cheap = middle }
    }
    Some(EconomicBalance::Below(cheap))
}

/// A steady hour.
struct Steady {
    /// What the first heater alone could give at most and hour after hour, kW.
    capacity_kw: f64,
    /// What of that would reach the room, kW.
    capacity_in_room_kw: f64,
    /// What strips gave while it defrosted, kW.
    defrost_kw: f64,
    outcome: ZoneOutcome<f64>,
}

/// Whether the first heater is kept off for the second, which is there.
fn locked_out(zone: &ZoneHour<'_, f64>) -> bool {
    let second = zone.heaters.get(1).is_some_and(|h| h.machine.greatest > 0.0);
    second && zone.handover.is_some_and(|h| h.locked_out > 0.0)
}

/// What an outdoor unit can give at most, and each of its heads by its place in the list of machines, kW.
struct OfUnit {
    unit_kw: Option<f64>,
    heads: Vec<(usize, f64)>,
}

impl OfUnit {
    fn all_heads_kw(&self) -> f64 {
        self.heads.iter().map(|(_, kw)| kw).sum()
    }

    /// What it can give of what its heads can, 0 to 1; all of it where its own is not known.
    fn share(&self) -> f64 {
        let heads = self.all_heads_kw();
        self.unit_kw.filter(|unit| *unit < heads).map_or(1.0, |unit| unit / heads)
    }

    /// The share of `machine`, the zone's heater of that place or its cooler, where it is less than all.
    fn shared(self, heater: Option<usize>, machine: usize) -> Option<Step> {
        let (share, asked_kw) = (self.share(), self.all_heads_kw());
        let own_kw = self.heads.iter().find(|(i, _)| *i == machine)?.1;
        (share < 1.0).then(|| Step::Shared {
            heater,
            unit_kw: self.unit_kw.unwrap_or_default(),
            asked: self.heads,
            asked_kw,
            own_kw,
            left_kw: own_kw * share,
            of_greatest: true,
        })
    }
}

struct Served<'a> {
    zone: &'a Zone,
    design: &'a ZoneDesign,
    machines: &'a [Machine],
    heaters: Vec<&'a Machine>,
    cooler: Option<&'a Machine>,
    frost: FrostShares,
    heat_taken_kw: f64,
}

impl<'a> Served<'a> {
    fn new(zone: &'a Zone, design: &'a ZoneDesign, machines: &'a [Machine]) -> Self {
        let heaters = design.heaters.iter().filter_map(|i| machines.get(*i)).collect();
        let cooler = design.cooler.and_then(|i| machines.get(i));
        let (frost, heat_taken_kw) = (FrostShares::default(), design.most_heat_taken_kw);
        Self { zone, design, machines, heaters, cooler, frost, heat_taken_kw }
    }

    /// In hours of the whole year instead of a cold night.
    fn of_year(zone: &'a Zone, design: &'a ZoneDesign, machines: &'a [Machine], frost: FrostShares) -> Self {
        Self { frost, heat_taken_kw: design.heat_taken_kw, ..Self::new(zone, design, machines) }
    }

    fn bin(&self, bin: Bin) -> BinRow {
        // The memory of the hours is lost: once as if every machine had run before, once as if none.
        let warm = self.outcome(bin.temperature_c, true);
        let cold = self.outcome(bin.temperature_c, false);
        let mut row = self.row(bin, &warm, bin.hours / 2.0);
        let other = self.row(bin, &cold, bin.hours / 2.0);
        let mean = |a: f64, b: f64| (a + b) / 2.0;
        row.heat_kw = mean(row.heat_kw, other.heat_kw);
        row.capacity_kw = mean(row.capacity_kw, other.capacity_kw);
        row.capacity_in_room_kw = mean(row.capacity_in_room_kw, other.capacity_in_room_kw);
        row.first_heat_kw = mean(row.first_heat_kw, other.first_heat_kw);
        row.first_in_room_kw = mean(row.first_in_room_kw, other.first_in_room_kw);
        row.first_draw_kw = mean(row.first_draw_kw, other.first_draw_kw);
        row.backup_kw = mean(row.backup_kw, other.backup_kw);
        for ((_, _, kwh), (_, _, more)) in row.energy.iter_mut().zip(&other.energy) {
            *kwh += more;
        }
        row
    }

    fn outcome(&self, outdoor_c: f64, was_on: bool) -> Steady {
        self.with_zone_hour(outdoor_c, was_on, |z, folds| {
            let first = if locked_out(z) { None } else { z.heaters.first() };
            let first = first.unwrap_or(&Heater::OFF);
            let outcome = folds.hour(z);
            let is_on = first.machine.greatest > 0.0;
            let strips_kw = if is_on { self.defrost_kw(outdoor_c) } else { 0.0 };
            let tempering = self.tempering(outdoor_c).filter(|_| is_on);
            let kw = strips_kw + tempering.map_or(0.0, |t| t.heat_kw);
            let lost_by = if is_on { folds.first() } else { Through::NONE };
            let lasting = self.heaters.first().map_or(1.0, |m| m.lasting_share(&first.machine));
            let most_kw = lasting * first.machine.greatest;
            Steady {
                capacity_kw: lost_by.at_machine_kwh(most_kw, lasting) - kw,
                capacity_in_room_kw: most_kw * first.ducts - kw * self.first_keeps(),
                defrost_kw: strips_kw * outcome.heaters[0].running,
                outcome,
            }
        })
    }

    fn with_zone_hour<R>(
        &self,
        outdoor_c: f64,
        was_on: bool,
        run: impl FnOnce(&ZoneHour<'_, f64>, &Folds) -> R,
    ) -> R {
        let mut heaters: Vec<_> = self.heaters.iter().map(|m| self.heater(m, outdoor_c, was_on)).collect();
        let lockout_c = self.design.changeover.and_then(|c| c.compressor_lockout_c);
        let locked_out = lockout_c.is_some_and(|t| outdoor_c < t);
        self.temper(&mut heaters, self.defrost_kw(outdoor_c), locked_out);
        let ducted = |place: usize| self.heaters.get(place).is_some_and(|m| m.ducted);
        let worth = self.design.changeover.and_then(|c| c.on_cost);
        let in_electricity = worth.map_or(0.0, |worth| worth.alternate_in_electricity());
        let tempering =
            self.tempering(outdoor_c).map(|t| (t, (in_electricity, self.first_keeps()), locked_out));
        let ducts = self.zone.duct_line.as_ref().map(|line| (line, outdoor_c));
        let folds = Folds::lay(&mut heaters, tempering, ducts, ducted, self.design.changeover.is_some());
        let figures = self.zone.cooling.filter(|c| outdoor_c > c.balance_temperature_c);
        let (loss_kw_k, gains_kw) =
            figures.map_or((self.zone.loss_kw_k, self.zone.gains_kw), |c| (c.loss_kw_k, c.gains_kw));
        let gains_kw = gains_kw - self.heat_taken_kw;
        let set_point_c = self.zone.heating.set_point_c;
        let zone = ZoneHour {
            room: RoomHour::new(loss_kw_k, gains_kw, 0.0, outdoor_c),
            start_c: set_point_c,
            set_point_c,
            vent_c: self.zone.vent_c,
            heaters: &heaters,
            handover: self.design.changeover.map(|c| Handover {
                locked_out: f64::from(locked_out),
                whole_hour: c.whole_hour,
                worth: c.on_cost,
            }),
            cooler: self.cooling(outdoor_c),
        };
        run(&zone, &folds)
    }

    /// Share that reaches the room of one more kW in the first heater's air.
    fn first_keeps(&self) -> f64 {
        let kept = self.zone.duct_line.map_or(self.zone.duct_efficiency, |line| line.kept);
        if self.heaters.first().is_some_and(|m| m.ducted) { kept } else { 1.0 }
    }

    /// Strips that temper the air while the first heater defrosts, kW while it runs, on the mean of frosty
    /// and dry hours.
    fn defrost_kw(&self, outdoor_c: f64) -> f64 {
        self.design.defrost_aux.map_or(0.0, |aux| aux.running_kw() * self.frost.at(outdoor_c))
    }

    /// Adds them to the first heater, and takes them off their bank where that one can run.
    fn temper(&self, heaters: &mut [Heater<f64>], kw: f64, locked_out: bool) {
        let Some(first) = heaters.first_mut() else { return };
        first.machine = first.machine.with_electric_heat(kw);
        let runs = first.machine.greatest > 0.0 && !locked_out;
        let bank = self.design.defrost_aux.and_then(|aux| aux.bank).filter(|_| runs);
        if let Some(bank) = bank.and_then(|place| heaters.get_mut(place)) {
            bank.machine = bank.machine.lending(kw);
        }
    }

    fn tempering(&self, outdoor_c: f64) -> Option<Tempering> {
        let share = self.frost.at(outdoor_c);
        self.design.tempering.filter(|_| share > 0.0).map(|tempering| tempering.times(share))
    }

    fn heater(&self, machine: &Machine, outdoor_c: f64, was_on: bool) -> Heater<f64> {
        let source_c = heating_source_c(machine, self.zone, outdoor_c, None);
        let on = machine.heating.as_ref().filter(|h| h.presence(source_c, was_on) == Presence::On);
        let ducts = if machine.ducted { self.zone.duct_efficiency } else { 1.0 };
        let mut hour = on.map_or(MachineHour::OFF, |h| h.hour_at(source_c));
        // Bins have no dates: a pilot that is out for a part of the year is out when no heat is needed.
        let out_in_summer = on.and_then(|h| h.pilot).is_some_and(|p| p.lit.is_some());
        if out_in_summer && outdoor_c >= self.zone.balance_temperature_c {
            hour.pilot = 0.0;
        }
        if let Some(unit) = machine.outdoor_unit {
            hour.greatest *= self.heating_of_unit(unit, outdoor_c, was_on).share();
        }
        Heater {
            machine: hour,
            cycling_loss: machine.heating.as_ref().map_or(0.0, |h| h.cycling_loss),
            ducts,
            before_ducts: 1.0 / ducts,
            // As if the cold lasted: an hour's share of what a day's fuelling allows.
            fuel_most: machine.daily_fuelling_kwh.map(|kwh| kwh / 24.0),
        }
    }

    /// What an outdoor unit and its heads can give at most: as if each asked for all it can, which is so when
    /// it is cold.
    fn heating_of_unit(&self, unit: usize, outdoor_c: f64, was_on: bool) -> OfUnit {
        self.of_unit(&self.design.heads, unit, |machine| {
            let on = machine.heating.as_ref().filter(|h| h.presence(outdoor_c, was_on) == Presence::On);
            Some(on.map_or(0.0, |h| h.hour_at(outdoor_c).greatest))
        })
    }

    /// The same of cooling.
    fn cooling_of_unit(&self, unit: usize, outdoor_c: f64) -> OfUnit {
        self.of_unit(&self.design.cooling_heads, unit, |machine| {
            Some(machine.cooling.as_ref()?.hour_at(outdoor_c).greatest)
        })
    }

    fn of_unit(&self, heads: &[usize], unit: usize, greatest: impl Fn(&Machine) -> Option<f64>) -> OfUnit {
        let on_it = |i: &usize| Some((*i, self.machines.get(*i).filter(|m| m.outdoor_unit == Some(unit))?));
        let heads = heads.iter().filter_map(on_it).filter_map(|(i, m)| Some((i, greatest(m)?)));
        OfUnit { unit_kw: self.machines.get(unit).and_then(&greatest), heads: heads.collect() }
    }

    /// Tells what each head of this zone is left by an outdoor unit that cannot give all that its heads can.
    fn tell_units(&self, steps: &mut Vec<Step>, outdoor_c: f64) {
        let unit = |i: Option<&usize>| self.machines.get(*i?)?.outdoor_unit;
        let heaters = self.design.heaters.iter().enumerate().filter_map(|(place, i)| {
            Some((Some(place), *i, self.heating_of_unit(unit(Some(i))?, outdoor_c, true)))
        });
        let cooler = self.design.cooler.as_ref();
        let cooler = cooler.and_then(|i| Some((None, *i, self.cooling_of_unit(unit(Some(i))?, outdoor_c))));
        for (head, machine, of_unit) in heaters.chain(cooler) {
            if let Some(shared) = of_unit.shared(head, machine) {
                put_shared(steps, head, shared);
            }
        }
    }

    fn cooling(&self, outdoor_c: f64) -> Option<Cooler<f64>> {
        let need = self.zone.cooling.filter(|need| outdoor_c > need.balance_temperature_c)?;
        let machine = self.cooler?;
        let cooling = machine.cooling.as_ref()?;
        let ducts = if machine.ducted { self.zone.duct_efficiency } else { 1.0 };
        let mut hour = cooling.hour_at(cooling_source_c(machine, self.zone, outdoor_c, None));
        if let Some(unit) = machine.outdoor_unit {
            hour.greatest *= self.cooling_of_unit(unit, outdoor_c).share();
        }
        Some(Cooler {
            machine: hour,
            cycling_loss: cooling.cycling_loss,
            sensible: cooling.sensible_heat_ratio * ducts,
            set_point_c: need.set_point_c,
        })
    }

    fn row(&self, bin: Bin, steady: &Steady, hours: f64) -> BinRow {
        let Steady { defrost_kw, outcome, .. } = steady;
        let mut energy = Vec::new();
        let defrost_in_room_kw = defrost_kw * self.first_keeps();
        let mut backup_kw = defrost_in_room_kw;
        let outputs = outcome.heaters.iter().zip(&outcome.in_room);
        for (place, (machine, (output, in_room))) in self.heaters.iter().zip(outputs).enumerate() {
            let is_backup = place > 0 && machine.kind == MachineKind::Resistance;
            let end_use = if is_backup { EndUse::BackupHeat } else { EndUse::SpaceHeating };
            // A pilot burns while its machine waits; both entries always, so that rows can be added up.
            let (drawn, waiting) = if output.heat > 0.0 { (output.draw, 0.0) } else { (0.0, output.draw) };
            energy.push((machine.fuel, end_use, drawn * hours));
            energy.push((machine.fuel, EndUse::Standby, waiting * hours));
            energy.push((FuelId::ELECTRICITY, end_use, output.side * hours));
            if is_backup {
                backup_kw += in_room;
            }
        }
        energy.push((
            FuelId::ELECTRICITY,
            EndUse::Cooling,
            (outcome.cooler.draw + outcome.cooler.side) * hours,
        ));
        if self.design.defrost_aux.is_some() {
            energy.push((FuelId::ELECTRICITY, EndUse::SpaceHeating, -defrost_kw * hours));
            energy.push((FuelId::ELECTRICITY, EndUse::BackupHeat, defrost_kw * hours));
        }
        let first = outcome.heaters[0];
        BinRow {
            outdoor_c: bin.temperature_c,
            hours: bin.hours,
            need_kw: outcome.need,
            heat_kw: outcome.heat,
            cooling_kw: outcome.cooling,
            capacity_kw: steady.capacity_kw,
            capacity_in_room_kw: steady.capacity_in_room_kw,
            first_heat_kw: first.heat - defrost_kw,
            first_in_room_kw: outcome.in_room[0] - defrost_in_room_kw,
            first_draw_kw: first.draw + first.side - defrost_kw,
            backup_kw,
            energy,
        }
    }
}

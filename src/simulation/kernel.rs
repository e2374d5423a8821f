//! The one `hour` function: a zone's room, its heaters and its cooler through one hour.
//!
//! Hours, bins and worked examples all come through here. Results hang on no branch on data, only on how
//! the zone is equipped, so that [`crate::lane::Lanes`] can run it side by side; the one branch there is
//! leaves out what would come to nothing. Start at [`hour`].

use crate::equipment::output::{MachineHour, Output};
use crate::lane::Lane;
use crate::load::RoomHour;

/// The most heaters a zone of an option may have.
pub const MOST_HEATERS: usize = 6;

/// A heater in one hour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heater<F> {
    /// What it can do.
    pub machine: MachineHour<F>,
    /// Its cycling loss, C_D.
    pub cycling_loss: F,
    /// Share of its heat that reaches the room.
    pub ducts: F,
    /// `1/ducts`, divided once a year: heat at the machine for each kW that is to reach the room.
    pub before_ducts: F,
    /// The most of its own fuel that it may burn, kWh; nothing where that has no limit.
    pub fuel_most: Option<F>,
}

impl Heater<f64> {
    /// A heater that gives nothing.
    pub const OFF: Self =
        Self { machine: MachineHour::OFF, cycling_loss: 0.0, ducts: 1.0, before_ducts: 1.0, fuel_most: None };
}

/// How the first heater hands over to the second.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Handover<F> {
    /// 1 in an hour in which the first is locked out, else 0.
    pub locked_out: F,
    /// Whether an hour that the first cannot carry goes wholly to the second.
    pub whole_hour: bool,
    /// If given, the hour goes to whichever heats for less.
    pub worth: Option<Worth<F>>,
}

/// What one kWh is worth to the two heaters that take turns, in any unit that all three share.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Worth<F> {
    /// Of the first's own fuel.
    pub lead: F,
    /// Of the second's own fuel.
    pub alternate: F,
    /// Of the electricity beside them.
    pub side: F,
}

/// Two costs nearer than this share are a tie.
const TIE: f64 = 1e-12;

impl<F: Lane> Worth<F> {
    /// 1 where the second gives a kWh of what it can give of `need` kW for less than the first does,
    /// else 0: a tie goes to the first. A heater that gives nothing is never the cheaper.
    #[inline(always)]
    pub(super) fn second_is_cheaper(&self, need: F, lead: &Heater<F>, alternate: &Heater<F>) -> F {
        let (zero, one) = (F::splat(0.0), F::splat(1.0));
        let (first_cost, first_heat) = self.cost(need, lead, self.lead);
        let (second_cost, second_heat) = self.cost(need, alternate, self.alternate);
        // Cost over heat compared without division, so that no heat makes no trouble.
        let limit = first_cost * second_heat * F::splat(1.0 - TIE);
        let cheaper = (second_cost * first_heat).less_select(limit, one, zero);
        zero.less_select(first_heat, cheaper, one)
    }

    /// What a heater costs for what it can give of `need` kW, its own fuel worth `own` a kWh, and what of
    /// that reaches the room, kWh.
    #[inline(always)]
    fn cost(&self, need: F, heater: &Heater<F>, own: F) -> (F, F) {
        let output = heater.machine.run(heater.cycling_loss, need * heater.before_ducts);
        (output.draw * own + output.side * self.side, output.heat * heater.ducts)
    }
}

impl Worth<f64> {
    /// What a kWh of the second's own fuel is worth in kWh of electricity; 0 where that is worth nothing.
    pub(super) fn alternate_in_electricity(&self) -> f64 {
        if self.side > 0.0 { self.alternate / self.side } else { 0.0 }
    }
}

/// A cooler in one hour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cooler<F> {
    /// What it can do, total cooling.
    pub machine: MachineHour<F>,
    /// Its cycling loss, C_D.
    pub cycling_loss: F,
    /// Sensible cooling in the room for each kW of total cooling: sensible heat ratio times ducts.
    pub sensible: F,
    /// The cooling set point, °C.
    pub set_point_c: F,
}

/// One zone in one hour, with what serves it.
#[derive(Debug, Clone, Copy)]
pub struct ZoneHour<'a, F> {
    /// The room and the outdoors.
    pub room: RoomHour<F>,
    /// Room temperature when the hour begins, °C.
    pub start_c: F,
    /// Heating set point, °C.
    pub set_point_c: F,
    /// Windows are opened above this, °C.
    pub vent_c: F,
    /// Heaters in order; at most [`MOST_HEATERS`].
    pub heaters: &'a [Heater<F>],
    /// If given, the second heater takes turns with the first instead of adding to it.
    pub handover: Option<Handover<F>>,
    /// The cooler, if there is one.
    pub cooler: Option<Cooler<F>>,
}

/// What came of the hour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ZoneOutcome<F> {
    /// Heat wanted in the room, kWh.
    pub need: F,
    /// Heat that reached the room, kWh.
    pub heat: F,
    /// Sensible cooling wanted, kWh.
    pub cooling_need: F,
    /// Sensible cooling that reached the room, kWh.
    pub cooling: F,
    /// Room temperature when the hour ends, °C.
    pub end_c: F,
    /// Kelvin that open windows took off at the end.
    pub vented_k: F,
    /// What each heater did, in order; heat as given at the machine, before ducts.
    pub heaters: [Output<F>; MOST_HEATERS],
    /// What of that reached the room, kWh.
    pub in_room: [F; MOST_HEATERS],
    /// Share of the hour that an alternate had, 0 to 1; 0 without one.
    pub turn: F,
    /// What the cooler did.
    pub cooler: Output<F>,
}

/// Runs one zone through one hour.
///
/// Heat is constant within the hour and such that it ends at the set point, as far as the heaters
/// can; what is too much in summer the cooler takes, then windows down to the warmer of the vent
/// temperature and the outdoors. With an alternate, the two never run at once: the hour is split.
#[inline(always)]
pub fn hour<F: Lane>(zone: &ZoneHour<'_, F>) -> ZoneOutcome<F> {
    let need = need(zone);
    let (heaters, in_room, heat, turn) = dispatch(need, zone.heaters, zone.handover);
    let heated_c = zone.room.end(zone.start_c, heat);
    let (cooling_need, cooling, cooler) = cool(zone, heated_c);
    let closed_c = match zone.cooler {
        Some(_) => zone.room.end(zone.start_c, heat - cooling),
        None => heated_c,
    };
    let end_c = closed_c.least(zone.vent_c.greatest(zone.room.outdoor_c));
    let vented_k = closed_c - end_c;
    ZoneOutcome { need, heat, cooling_need, cooling, end_c, vented_k, heaters, in_room, turn, cooler }
}

/// The same hour with ample heat: what it takes, kWh, and where the room ends, °C.
#[inline(always)]
pub fn ample_hour<F: Lane>(zone: &ZoneHour<'_, F>) -> (F, F) {
    let need = need(zone);
    let (_, cooling, _) = cool(zone, zone.room.end(zone.start_c, need));
    let closed_c = zone.room.end(zone.start_c, need - cooling);
    (need, closed_c.least(zone.vent_c.greatest(zone.room.outdoor_c)))
}

/// Heat wanted in the room, kW.
#[inline(always)]
pub(super) fn need<F: Lane>(zone: &ZoneHour<'_, F>) -> F {
    zone.room.heat_to_end_at(zone.start_c, zone.set_point_c).greatest(F::splat(0.0))
}

/// What the heaters give for `need` kW in the room, what of it arrives there and its sum, and the
/// alternate's turn.
#[inline(always)]
fn dispatch<F: Lane>(
    need: F,
    heaters: &[Heater<F>],
    handover: Option<Handover<F>>,
) -> ([Output<F>; MOST_HEATERS], [F; MOST_HEATERS], F, F) {
    let mut outputs = [Output::zero(); MOST_HEATERS];
    let mut in_room = [F::splat(0.0); MOST_HEATERS];
    let (heat, turn) = match (handover, heaters) {
        (Some(handover), [lead, alternate, auxiliaries @ ..]) => {
            let (pair, turn) = take_turns(need, lead, alternate, handover);
            [outputs[0], outputs[1]] = pair;
            [in_room[0], in_room[1]] = [outputs[0].heat * lead.ducts, outputs[1].heat * alternate.ducts];
            let heat = in_room[0] + in_room[1];
            (add_up(need, heat, auxiliaries, (&mut outputs[2..], &mut in_room[2..])), turn)
        }
        _ => (add_up(need, F::splat(0.0), heaters, (&mut outputs, &mut in_room)), F::splat(0.0)),
    };
    (outputs, in_room, heat, turn)
}

/// Heaters that each add what those before them lack; gives the heat in the room with theirs.
#[inline(always)]
fn add_up<F: Lane>(
    need: F,
    mut heat: F,
    heaters: &[Heater<F>],
    (outputs, in_room): (&mut [Output<F>], &mut [F]),
) -> F {
    for ((output, in_room), heater) in outputs.iter_mut().zip(in_room).zip(heaters) {
        let wanted = heater.machine.run(heater.cycling_loss, (need - heat) * heater.before_ducts);
        *output = wanted.share(heater.share_of(wanted.draw));
        *in_room = output.heat * heater.ducts;
        heat = heat + *in_room;
    }
    heat
}

impl<F: Lane> Heater<F> {
    /// The share of a draw of `wanted` kWh that its fuel allows, 0 to 1.
    #[inline(always)]
    fn share_of(&self, wanted: F) -> F {
        match self.fuel_most {
            // Nothing of nothing is no number; the least then is 1, and 1 of nothing is right.
            Some(most) => (most / wanted).least(F::splat(1.0)),
            None => F::splat(1.0),
        }
    }
}

/// Splits the hour between a lead and its alternate, never both at once; gives both outputs
/// and the alternate's share of the hour.
///
/// Locked out, or an hour it cannot carry in whole-hour form: the alternate's. Else the lead's, and
/// where it cannot carry the hour the share of time `f` goes to the alternate such that
/// `f·Q_alternate + (1 − f)·Q_lead = need`. From when the alternate has no fuel, time is the lead's.
/// On cost, the hour is the cheaper one's, and the other helps in the same way where that one cannot
/// carry it.
#[inline(always)]
fn take_turns<F: Lane>(
    need: F,
    lead: &Heater<F>,
    alternate: &Heater<F>,
    how: Handover<F>,
) -> ([Output<F>; 2], F) {
    let (zero, one) = (F::splat(0.0), F::splat(1.0));
    let lead_most = lead.machine.greatest * lead.ducts;
    let alternate_most = alternate.machine.greatest * alternate.ducts;
    let over = need - lead_most;
    let gap = lead_most.less_select(alternate_most, alternate_most - lead_most, one);
    let split = lead_most.less_select(alternate_most, (over / gap).greatest(zero).least(one), zero);
    let short = zero.less_select(over, one, zero);
    let there = zero.less_select(alternate_most, one, zero);
    let dear = match how.worth {
        Some(worth) => how.locked_out.greatest(worth.second_is_cheaper(need, lead, alternate)),
        None => how.locked_out,
    };
    let whole = if how.whole_hour { dear.greatest(short) } else { dear } * there;
    let most_of_hour = match how.worth {
        Some(_) => zero.less_select(how.locked_out, one, helped(need, lead_most, alternate_most)),
        None => one,
    };
    let turn = zero.less_select(whole, most_of_hour, split);
    // In a whole hour the alternate follows the need; in a split one it runs at full output.
    let pace = zero.less_select(whole, need, alternate_most);
    let wanted = alternate.machine.run(alternate.cycling_loss, pace * alternate.before_ducts).share(turn);
    let fuelled = alternate.share_of(wanted.draw);
    let used = turn * fuelled;
    let lead_pace = match how.worth {
        // What is left of the need in what is left of the hour.
        Some(_) => (need - wanted.heat * fuelled * alternate.ducts) / (one - used).greatest(F::splat(TIE)),
        None => need,
    };
    let lead_wanted = lead.machine.run(lead.cycling_loss, lead_pace * lead.before_ducts).share(one - used);
    ([lead_wanted.share(lead.share_of(lead_wanted.draw)), wanted.share(fuelled)], used)
}

/// The alternate's share of an hour that is its own: all of it, unless only the lead's help carries it.
#[inline(always)]
fn helped<F: Lane>(need: F, lead_most: F, alternate_most: F) -> F {
    let (zero, one) = (F::splat(0.0), F::splat(1.0));
    let gap = alternate_most.less_select(lead_most, lead_most - alternate_most, one);
    let share = ((lead_most - need) / gap).greatest(zero).least(one);
    alternate_most.less_select(lead_most, share, one)
}

#[inline(always)]
fn cool<F: Lane>(zone: &ZoneHour<'_, F>, heated_c: F) -> (F, F, Output<F>) {
    let zero = F::splat(0.0);
    let Some(cooler) = &zone.cooler else { return (zero, zero, Output::zero()) };
    let wanted = zero - zone.room.heat_to_end_at(zone.start_c, cooler.set_point_c);
    let need = cooler.set_point_c.less_select(heated_c, wanted, zero).greatest(zero);
    let output = cooler.machine.run(cooler.cycling_loss, need / cooler.sensible);
    (need, output.heat * cooler.sensible, output)
}

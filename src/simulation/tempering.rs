//! A furnace that tempers the air while the heat pump before it defrosts: the heat pump gives so much
//! less, the furnace burns for it.
//!
//! Laid on the heat pump before the hour, so that the kernel sees one machine that gives more, and parted
//! again after it. Start at [`Tempering::fold`].

use super::kernel::{Heater, ZoneOutcome};
use super::working::Step;

/// What a furnace does while the first heater runs and defrosts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tempering {
    /// The furnace's place among the zone's heaters.
    pub place: usize,
    /// Share of the first heater's running that it burns.
    pub share_of_running: f64,
    /// Its heat on the mean of an hour in which the first heater runs all through, before ducts, kW.
    pub heat_kw: f64,
    /// Its draw of fuel for that, kW.
    pub draw_kw: f64,
    /// Electricity beside it, kW.
    pub side_kw: f64,
}

/// What was folded into the first heater in one hour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Folded {
    of: Tempering,
    /// Electricity that stands for the furnace's fuel where turns go by cost, kW.
    instead_kw: f64,
    /// Share of the heat that the ducts keep.
    kept: f64,
    /// Share of the hour that is left to the furnace for the room, 0 to 1.
    own_time: f64,
}

impl Tempering {
    /// On the mean of hours of which this share is frosty.
    #[must_use]
    pub fn times(self, share: f64) -> Self {
        Self {
            place: self.place,
            share_of_running: self.share_of_running * share,
            heat_kw: self.heat_kw * share,
            draw_kw: self.draw_kw * share,
            side_kw: self.side_kw * share,
        }
    }

    /// Adds the furnace's heat to the first heater's outputs. Nothing where that one is off or the
    /// furnace's fuel is short: then the air stays cool. `fuel_in_electricity` is what a kWh of its fuel is
    /// worth in kWh of electricity, `kept` what the ducts keep of its heat; `lends` tells that it would heat
    /// beside the first heater, so that for the room only the rest of its time is left.
    pub fn fold(
        self,
        heaters: &mut [Heater<f64>],
        (fuel_in_electricity, kept): (f64, f64),
        lends: bool,
    ) -> Option<Folded> {
        let ample = heaters.get(self.place).is_some_and(|furnace| furnace.fuel_most.is_none());
        let is_on = heaters.first().is_some_and(|first| first.machine.greatest > 0.0);
        if !ample || !is_on {
            return None;
        }
        let own_time = if lends { (1.0 - self.share_of_running).max(0.0) } else { 1.0 };
        if let Some(furnace) = heaters.get_mut(self.place) {
            furnace.machine = furnace.machine.for_a_share(own_time);
        }
        let first = heaters.first_mut()?;
        let instead_kw = self.draw_kw * fuel_in_electricity + self.side_kw;
        let machine = &mut first.machine;
        machine.least += self.heat_kw;
        machine.rated += self.heat_kw;
        machine.greatest += self.heat_kw;
        machine.side += instead_kw;
        Some(Folded { of: self, instead_kw, kept, own_time })
    }
}

impl Folded {
    /// Gives the furnace what is its own of the first heater's hour.
    pub fn unfold(self, outcome: &mut ZoneOutcome<f64>) {
        let [first, others @ ..] = &mut outcome.heaters;
        let Some(furnace) = self.of.place.checked_sub(1).and_then(|i| others.get_mut(i)) else { return };
        let running = first.running;
        let heat = self.of.heat_kw * running;
        first.heat -= heat;
        first.side -= self.instead_kw * running;
        // A pilot that burns while the furnace waits is part of its flame.
        let pilot = if furnace.heat > 0.0 { 0.0 } else { furnace.draw };
        furnace.draw = furnace.draw - pilot + (self.of.draw_kw * running).max(pilot);
        furnace.heat += heat;
        furnace.side += self.of.side_kw * running;
        furnace.running = furnace.running * self.own_time + self.of.share_of_running * running;
        outcome.in_room[0] -= heat * self.kept;
        if let Some(in_room) = outcome.in_room.get_mut(self.of.place) {
            *in_room += heat * self.kept;
        }
    }

    /// Takes what stands for the furnace's fuel out of the first heater's steps, and tells the furnace's.
    pub(super) fn tell(self, steps: &mut Vec<Step>, running: f64) {
        if let Some(Step::Weighed(weighed)) = steps.iter_mut().find(|s| matches!(s, Step::Weighed(_))) {
            let first = &mut weighed.first;
            first.instead_kw = self.instead_kw * first.how.share();
            first.side_kw = (first.side_kw - first.instead_kw).max(0.0);
        }
        let first = steps.iter().position(|s| matches!(s, Step::Output { heater: 0, .. }));
        let Some(at) = first.filter(|_| running > 0.0) else { return };
        if let Some(Step::Output { how, side_kw, side_running_kw, .. }) = steps.get_mut(at) {
            // The step tells how it runs in its turn, the share of the hour comes after.
            *side_kw = (*side_kw - self.instead_kw * how.share()).max(0.0);
            *side_running_kw = (*side_running_kw - self.instead_kw).max(0.0);
        }
        let told = Step::Tempering {
            heater: self.of.place,
            running,
            heat_kw: self.of.heat_kw * running,
            draw_kw: self.of.draw_kw * running,
            side_kw: self.of.side_kw * running,
            own_time: self.own_time,
        };
        steps.insert(at + 1, told);
    }
}

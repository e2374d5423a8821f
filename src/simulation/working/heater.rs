//! One heater's part of an hour as steps, at the machine and in the room.
//!
//! Start at [`Asked::steps`].

use super::running::{Candidate, Running};
use super::step::Step;
use crate::equipment::output::{MachineHour, Output};
use crate::simulation::kernel::Heater;
use crate::simulation::through::Through;

/// What is asked of a heater, and what came of it.
pub(super) struct Asked<'a> {
    /// Its place among the zone's heaters.
    pub(super) place: usize,
    pub(super) heater: &'a Heater<f64>,
    pub(super) output: &'a Output<f64>,
    /// What is wanted in the room, kW.
    pub(super) need_kw: f64,
    /// What those before it brought, kW; nothing counts before one that takes turns.
    pub(super) before_kw: f64,
    /// Still lacking in the room, kW.
    pub(super) lacking_kw: f64,
    /// Its share of the hour, where it takes turns.
    pub(super) turn: Option<f64>,
    /// Whether it runs at its greatest output, as two that share an hour do.
    pub(super) at_greatest: bool,
    /// What it brought into the room, kW.
    pub(super) in_room_kw: f64,
}

impl Asked<'_> {
    /// What is wanted of it, what it gives and draws, its share, what reaches the room.
    pub(super) fn steps(&self, locked_out: bool) -> Vec<Step> {
        let place = self.place;
        if self.turn.is_some_and(|share| share <= 0.0) {
            return vec![Step::Turn { heater: place, share: 0.0, locked_out }];
        }
        let fuelled = if self.turn.is_none() { self.fuelled() } else { None };
        let of_fuel = fuelled.as_ref().map_or(1.0, |(share, _)| *share);
        let share = self.turn.unwrap_or(of_fuel);
        let running = if share > 0.0 { self.output.share(1.0 / share) } else { Output::zero() };
        let gave = Step::Output {
            heater: place,
            how: running_how(&self.heater.machine, self.heater.cycling_loss, running.heat),
            heat_kw: running.heat,
            draw_kw: running.draw,
            side_kw: running.side,
            side_running_kw: self.heater.machine.side,
        };
        let turned = self.turn.map(|share| Step::Turn { heater: place, share, locked_out });
        let arrives = (self.output.heat > 0.0).then_some(Step::InRoom {
            heater: place,
            heat_kw: running.heat,
            share,
            kept: self.heater.ducts,
            lost_kw: 0.0,
            running: running.running,
            draw_kw: running.draw,
            in_room_kw: self.in_room_kw,
        });
        let shares = turned.into_iter().chain(fuelled.map(|(_, step)| step));
        [self.asked(), gave].into_iter().chain(shares).chain(arrives).collect()
    }

    fn asked(&self) -> Step {
        let (heater, ducts, lacking_kw) = (self.place, self.heater.ducts, self.lacking_kw);
        if self.at_greatest {
            let greatest_kw = self.heater.machine.greatest;
            let in_room_kw = greatest_kw * ducts;
            return Step::AtGreatest { heater, greatest_kw, kept: ducts, lost_kw: 0.0, in_room_kw };
        }
        let (need_kw, before_kw) = (self.need_kw, self.before_kw);
        Step::Wanted { heater, before_kw, need_kw, lacking_kw, ducts, wanted_kw: lacking_kw / ducts }
    }

    /// The share of what was asked that the fuel allowed, where it allowed less.
    fn fuelled(&self) -> Option<(f64, Step)> {
        let (heater, most_kwh) = (self.heater, self.heater.fuel_most?);
        let ample = heater.machine.run(heater.cycling_loss, self.lacking_kw * heater.before_ducts);
        (self.output.draw < ample.draw).then(|| {
            let share = self.output.draw / ample.draw;
            (share, Step::Fuelled { heater: self.place, most_kwh, asked_kwh: ample.draw, share })
        })
    }
}

/// What a heater would do for all of `need_kw` kW in the room, its fuel and the electricity beside it worth
/// so much a kWh.
pub(super) fn candidate(heater: &Heater<f64>, need_kw: f64, worth: f64, side_worth: f64) -> Candidate {
    let output = heater.machine.run(heater.cycling_loss, need_kw * heater.before_ducts);
    let (in_room_kw, cost) = (output.heat * heater.ducts, output.draw * worth + output.side * side_worth);
    Candidate {
        how: running_how(&heater.machine, heater.cycling_loss, output.heat),
        heat_kw: output.heat,
        in_room_kw,
        draw_kw: output.draw,
        side_kw: output.side,
        instead_kw: 0.0,
        worth,
        side_worth,
        cost,
        cost_per_kwh: (in_room_kw > 0.0).then(|| cost / in_room_kw),
    }
}

/// How a machine comes to its draw at an output of `heat_kw`.
pub(super) fn running_how(m: &MachineHour<f64>, cycling_loss: f64, heat_kw: f64) -> Running {
    if heat_kw <= 0.0 {
        return Running::Off;
    }
    if heat_kw < m.least {
        let share = heat_kw / m.least;
        return Running::Cycling {
            least_kw: m.least,
            power_least_kw: m.power_least,
            cycling_loss,
            share,
            part_load_factor: 1.0 - cycling_loss * (1.0 - share),
        };
    }
    let rated_power_kw = m.power_least + m.slope_low * (m.rated - m.least);
    if heat_kw <= m.rated {
        return Running::Between {
            from_kw: m.least,
            power_kw: m.power_least,
            slope: m.slope_low,
            to_kw: m.rated,
            to_power_kw: rated_power_kw,
        };
    }
    Running::Between {
        from_kw: m.rated,
        power_kw: rated_power_kw,
        slope: m.slope_high,
        to_kw: m.greatest,
        to_power_kw: rated_power_kw + m.slope_high * (m.greatest - m.rated),
    }
}

/// A step of a heater that stands in the room, as one of the machine behind its ducts; any other as it is.
pub(super) fn at_machine(step: &Step, through: &[Through], heaters: &[Heater<f64>]) -> Step {
    let behind = |place: usize| {
        let ducts = through.get(place).filter(|t| **t != Through::NONE)?;
        heaters.get(place).map(|folded| Behind { ducts: *ducts, folded })
    };
    let of = match step {
        Step::Weighed(weighed) => {
            let mut weighed = weighed.clone();
            for (place, one) in [&mut weighed.first, &mut weighed.second].into_iter().enumerate() {
                if let Some(behind) = behind(place) {
                    (one.how, one.heat_kw) = (behind.how(one.how), behind.given(one.heat_kw));
                }
            }
            return Step::Weighed(weighed);
        }
        Step::Wanted { heater, .. }
        | Step::AtGreatest { heater, .. }
        | Step::Output { heater, .. }
        | Step::InRoom { heater, .. } => behind(*heater),
        _ => None,
    };
    of.map_or_else(|| step.clone(), |behind| behind.step(step))
}

/// A heater behind ducts that were folded into it.
struct Behind<'a> {
    ducts: Through,
    folded: &'a Heater<f64>,
}

impl Behind<'_> {
    /// What it gives at the machine, kW, for so much in the room.
    fn given(&self, kw: f64) -> f64 {
        self.ducts.at_machine_kwh(kw, (kw / self.folded.machine.least).min(1.0))
    }

    fn how(&self, how: Running) -> Running {
        match how {
            Running::Off => Running::Off,
            Running::Cycling { least_kw, power_least_kw, cycling_loss, share, part_load_factor } => {
                let least_kw = self.given(least_kw);
                Running::Cycling { least_kw, power_least_kw, cycling_loss, share, part_load_factor }
            }
            Running::Between { from_kw, power_kw, slope, to_kw, to_power_kw } => Running::Between {
                from_kw: self.given(from_kw),
                power_kw,
                slope: slope * self.ducts.kept,
                to_kw: self.given(to_kw),
                to_power_kw,
            },
        }
    }

    fn step(&self, step: &Step) -> Step {
        let Through { kept, lost_kw } = self.ducts;
        match *step {
            Step::Wanted { heater, before_kw, need_kw, lacking_kw, .. } => {
                let running = (lacking_kw / self.folded.machine.least).min(1.0);
                let wanted_kw = self.given(lacking_kw);
                Step::WantedThrough {
                    heater,
                    before_kw,
                    need_kw,
                    lacking_kw,
                    kept,
                    lost_kw,
                    running,
                    wanted_kw,
                }
            }
            Step::AtGreatest { heater, in_room_kw, .. } => {
                // Nothing moves no air.
                let lost_kw = if in_room_kw > 0.0 { lost_kw } else { 0.0 };
                Step::AtGreatest { heater, greatest_kw: self.given(in_room_kw), kept, lost_kw, in_room_kw }
            }
            Step::Output { heater, how, heat_kw, draw_kw, side_kw, side_running_kw } => {
                let (how, heat_kw) = (self.how(how), self.given(heat_kw));
                Step::Output { heater, how, heat_kw, draw_kw, side_kw, side_running_kw }
            }
            Step::InRoom { heater, heat_kw, share, running, draw_kw, in_room_kw, .. } => {
                let heat_kw = self.ducts.at_machine_kwh(heat_kw, running);
                Step::InRoom { heater, heat_kw, share, kept, lost_kw, running, draw_kw, in_room_kw }
            }
            _ => step.clone(),
        }
    }
}

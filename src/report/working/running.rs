//! One machine's part of a moment: what is wanted of it, how it runs, what reaches the room.
//!
//! Start at [`Words::asked`].

use super::words::Words;
use crate::report::figures::grouped;
use crate::simulation::working::{Running, Step};

impl Words<'_> {
    /// What is asked of a heater, and what its map gives.
    pub(super) fn asked(&self, heater: usize, step: &Step) -> Vec<String> {
        let Some(wanted) = self.wanted(step) else {
            return vec![format!("{}: nothing is wanted of it.", self.name(heater))];
        };
        if self.held.contains(&heater) {
            return vec![wanted, "  It is held back while the room recovers.".into()];
        }
        let map = self.heaters.get(heater).into_iter().flat_map(|facts| self.map(facts));
        std::iter::once(wanted).chain(map).collect()
    }

    /// What is wanted of a heater; nothing where nothing is.
    fn wanted(&self, step: &Step) -> Option<String> {
        match step {
            Step::Wanted { heater, before_kw, need_kw, lacking_kw, ducts, wanted_kw }
                if *lacking_kw > 0.0 =>
            {
                let lacking = self.lacking(*before_kw, *need_kw, *lacking_kw);
                let name = self.name(*heater);
                Some(match *ducts == 1.0 {
                    true => format!("{name}: lacking in the room {lacking}."),
                    false => format!(
                        "{name}: lacking in the room {lacking}, through ducts that keep {}: {} / {} = {} wanted.",
                        grouped(*ducts, 4),
                        self.q(*lacking_kw),
                        grouped(*ducts, 4),
                        self.q(*wanted_kw)
                    ),
                })
            }
            Step::WantedThrough { lacking_kw, .. } if *lacking_kw > 0.0 => Some(self.wanted_through(step)),
            Step::AtGreatest { heater, greatest_kw, .. } if *greatest_kw <= 0.0 => {
                Some(format!("{}: it can give nothing in this hour.", self.name(*heater)))
            }
            Step::AtGreatest { heater, greatest_kw, kept, lost_kw, in_room_kw } => Some(format!(
                "{}: at its greatest output it brings {} into the room.",
                self.name(*heater),
                self.arriving((*greatest_kw, 1.0), (*kept, *lost_kw), 1.0, *in_room_kw)
            )),
            _ => None,
        }
    }

    fn wanted_through(&self, step: &Step) -> String {
        let Step::WantedThrough { heater, before_kw, need_kw, lacking_kw, kept, lost_kw, running, wanted_kw } =
            step
        else {
            return String::new();
        };
        let running = grouped(*running, 4);
        if *lost_kw == 0.0 {
            return format!(
                "{}: lacking in the room {}, through ducts that keep {} of an output in air that moves anyway: {} / {} = {} \
                 wanted.",
                self.name(*heater),
                self.lacking(*before_kw, *need_kw, *lacking_kw),
                grouped(*kept, 4),
                self.q(*lacking_kw),
                grouped(*kept, 4),
                self.q(*wanted_kw)
            );
        }
        format!(
            "{}: lacking in the room {}, through ducts that keep {} of an output and lose {} beside it while air \
             moves, here {running} of the hour: ({} + {} \u{d7} {running}) / {} = {} wanted.",
            self.name(*heater),
            self.lacking(*before_kw, *need_kw, *lacking_kw),
            grouped(*kept, 4),
            self.q(*lost_kw),
            self.q(*lacking_kw),
            self.q(*lost_kw),
            grouped(*kept, 4),
            self.q(*wanted_kw)
        )
    }

    fn lacking(&self, before_kw: f64, need_kw: f64, lacking_kw: f64) -> String {
        match before_kw > 0.0 {
            true => format!("{} \u{2212} {} = {}", self.q(need_kw), self.q(before_kw), self.q(lacking_kw)),
            false => self.q(lacking_kw),
        }
    }

    /// `share·(kept·heat − lost·running) = in the room`, what makes no difference left out.
    fn arriving(
        &self,
        (heat_kw, share): (f64, f64),
        (kept, lost_kw): (f64, f64),
        running: f64,
        kw: f64,
    ) -> String {
        let mut sum = self.q(heat_kw);
        if kept != 1.0 {
            sum = format!("{sum} \u{d7} {}", grouped(kept, 4));
        }
        if lost_kw > 0.0 {
            let lost = format!("{} \u{d7} {}", self.q(lost_kw), grouped(running, 4));
            sum = format!("{sum} \u{2212} {}", if running == 1.0 { self.q(lost_kw) } else { lost });
        }
        if share != 1.0 {
            let (open, close) = if lost_kw > 0.0 { ("(", ")") } else { ("", "") };
            sum = format!("{open}{sum}{close} \u{d7} {}", grouped(share, 4));
        }
        if sum == self.q(heat_kw) { sum } else { format!("{sum} = {}", self.q(kw)) }
    }

    /// What of a heater's output reaches the room, where that is not simply all of it.
    pub(super) fn in_room(&self, step: &Step) -> Vec<String> {
        let Step::InRoom { heat_kw, share, kept, lost_kw, running, draw_kw, in_room_kw, .. } = step else {
            return Vec::new();
        };
        let mut lines = Vec::new();
        if *share != 1.0 {
            lines.push(format!(
                "  Draw {} kW \u{d7} {} = {} kW.",
                grouped(*draw_kw, 4),
                grouped(*share, 4),
                grouped(draw_kw * share, 4)
            ));
        }
        if *share != 1.0 || *kept != 1.0 || *lost_kw > 0.0 {
            let arriving = self.arriving((*heat_kw, *share), (*kept, *lost_kw), *running, *in_room_kw);
            lines.push(format!("  Into the room: {arriving}."));
        }
        lines
    }

    pub(super) fn output(&self, step: &Step) -> Vec<String> {
        let Step::Output { how, heat_kw, draw_kw, side_kw, side_running_kw, .. } = step else {
            return Vec::new();
        };
        let mut lines = vec![self.running(how, *heat_kw, *draw_kw)];
        lines.extend(self.side(how, *side_kw, *side_running_kw));
        lines
    }

    /// Electricity beside a machine's own draw.
    pub(super) fn side(&self, how: &Running, side_kw: f64, running_kw: f64) -> Option<String> {
        let side = match how {
            Running::Cycling { share, .. } => format!(
                "{} kW \u{d7} {} = {} kW",
                grouped(running_kw, 4),
                grouped(*share, 4),
                grouped(side_kw, 4)
            ),
            _ => format!("{} kW", grouped(side_kw, 4)),
        };
        (side_kw > 0.0).then(|| {
            format!(
                "  Electricity beside it, for fan, blower, pan heater or strips while it defrosts: {side}."
            )
        })
    }

    pub(super) fn tempering(&self, step: &Step) -> String {
        let Step::Tempering { heater, running, heat_kw, draw_kw, side_kw, own_time } = step else {
            return String::new();
        };
        let rest = match *own_time < 1.0 {
            true => format!(
                "; of its hour, and so of all that it can give, {} is left for the room",
                grouped(*own_time, 4)
            ),
            false => String::new(),
        };
        format!(
            "  Of this, {} gives {} while it defrosts: it tempers the air for {} kW of fuel and {} kW beside it (on \
             the mean of the hour, {} of which the first machine runs); every output above has that in{rest}.",
            self.name(*heater),
            self.q(*heat_kw),
            grouped(*draw_kw, 4),
            grouped(*side_kw, 4),
            grouped(*running, 4)
        )
    }

    pub(super) fn defrosting(&self, running_kw: f64, heat_kw: f64, of_bank: bool) -> String {
        let bank = if of_bank { "; of their bank so much less is left for the room" } else { "" };
        format!(
            "  Of this, strips that temper the air while it defrosts ({} on the mean of a running hour) give {} and \
             draw {} kW; every output above has them in{bank}.",
            self.q(running_kw),
            self.q(heat_kw),
            grouped(heat_kw, 4)
        )
    }

    pub(super) fn running(&self, how: &Running, heat_kw: f64, draw_kw: f64) -> String {
        let draw = grouped(draw_kw, 4);
        let heat = self.q(heat_kw);
        match how {
            Running::Off if draw_kw > 0.0 => format!("  It gives nothing; its pilot burns {draw} kW."),
            Running::Off => "  It gives nothing and draws nothing.".into(),
            Running::Cycling { least_kw, power_least_kw, cycling_loss, share, part_load_factor } => {
                let (least, share) = (self.q(*least_kw), grouped(*share, 4));
                let power = grouped(*power_least_kw, 4);
                if share == "1.0000" {
                    return format!("  It gives {heat}; draw {draw} kW.");
                }
                if *cycling_loss == 0.0 {
                    return format!(
                        "  It gives {heat} / {least} = {share} of that; draw {power} kW \u{d7} {share} = {draw} kW."
                    );
                }
                let factor = grouped(*part_load_factor, 4);
                format!(
                    "  It gives less than its least, so it cycles: share {heat} / {least} = {share}; 1 \u{2212} {} \
                     \u{d7} (1 \u{2212} {share}) = {factor}; draw {power} kW \u{d7} {share} / {factor} = {draw} kW.",
                    grouped(*cycling_loss, 3)
                )
            }
            Running::Between { slope, .. } if *slope == 0.0 => {
                format!("  It gives {heat}; draw {draw} kW.")
            }
            Running::Between { .. } => self.between_outputs(how, &heat, &draw),
        }
    }

    fn between_outputs(&self, how: &Running, heat: &str, draw: &str) -> String {
        let Running::Between { from_kw, power_kw, slope, to_kw, to_power_kw } = how else {
            return String::new();
        };
        let (from, to) = (self.q(*from_kw), self.q(*to_kw));
        let (power, to_power) = (grouped(*power_kw, 4), grouped(*to_power_kw, 4));
        if heat == from {
            return format!("  It gives {heat}; draw {draw} kW.");
        }
        if heat == to {
            return format!("  It gives {heat}, its greatest; draw {draw} kW.");
        }
        let slope = grouped(*slope / self.measure.power(1.0), 5);
        format!(
            "  It gives {heat}. Each further {} draws ({to_power} kW \u{2212} {power} kW) / ({to} \u{2212} {from}) = \
             {slope} kW; draw {power} kW + {slope} kW \u{d7} ({heat} \u{2212} {from}) = {draw} kW.",
            self.measure.power_unit()
        )
    }
}

//! The room's side of a moment: what it needs, recovery, what reaches it, cooling, where it ends.
//!
//! Start at [`Words::need`].

use super::words::Words;
use crate::report::figures::grouped;
use crate::simulation::state::LONGEST_RECOVERY_H;
use crate::simulation::working::Step;

impl Words<'_> {
    pub(super) fn need(&self, step: &Step) -> Vec<String> {
        let Step::Need { loss_kw_k, gains_kw, decay, start_c, set_point_c, outdoor_c, steady_c, need_kw } =
            step
        else {
            return Vec::new();
        };
        let mut lines = Vec::new();
        if *decay > 0.0 {
            let (decay, set_point) = (grouped(*decay, 5), self.t(*set_point_c));
            lines.push(format!(
                "The room begins the hour at {} and shall end it at {set_point}; {decay} of a difference is left after \
                 an hour, so it needs as much as a steady room at ({set_point} \u{2212} {decay} \u{d7} {}) / (1 \u{2212} \
                 {decay}) = {}.",
                self.t(*start_c),
                self.t(*start_c),
                self.t(*steady_c)
            ));
        }
        let sum = format!(
            "{} \u{d7} ({} \u{2212} {}) \u{2212} gains {}",
            self.rate(*loss_kw_k),
            self.t(*steady_c),
            self.t(*outdoor_c),
            self.q(*gains_kw)
        );
        lines.push(match *need_kw > 0.0 {
            true => format!("Need: {sum} = {}.", self.q(*need_kw)),
            false => format!("Need: {sum} is not above 0: nothing is needed."),
        });
        lines
    }

    pub(super) fn recovering(&self, hour: u8, held: &[usize]) -> String {
        let names: Vec<_> = held.iter().map(|place| self.name(*place)).collect();
        let held = match names.as_slice() {
            [] => String::new(),
            names => format!(" {} is held back until then (staged recovery).", names.join(", ")),
        };
        format!(
            "The room recovers from a set-back: this is hour {hour} of at most {LONGEST_RECOVERY_H}, until it is \
             within {} of its set point.{held}",
            self.k(crate::simulation::state::RECOVERED_WITHIN_K)
        )
    }

    pub(super) fn delivered(&self, step: &Step) -> Vec<String> {
        let Step::Delivered { parts, heat_kw, need_kw } = step else { return Vec::new() };
        if *need_kw <= 0.0 {
            return vec!["No heat is wanted.".into()];
        }
        let sum = match parts.as_slice() {
            [_, _, ..] => {
                let parts: Vec<_> = parts.iter().map(|kw| self.q(*kw)).collect();
                format!("{} = ", parts.join(" + "))
            }
            _ => String::new(),
        };
        let (heat, need) = (self.q(*heat_kw), self.q(*need_kw));
        vec![match *heat_kw < *need_kw * (1.0 - 1e-9) {
            true => format!("In the room: {sum}{heat} of {need} wanted; it does not reach its set point."),
            false => format!("In the room: {sum}{heat}, all that is wanted."),
        }]
    }

    pub(super) fn cooling_need(&self, step: &Step) -> String {
        let Step::CoolingNeed { uncooled_c, set_point_c, loss_kw_k, gains_kw, steady_c, outdoor_c, need_kw } =
            step
        else {
            return String::new();
        };
        let uncooled = format!("Without cooling the room would end at {}", self.t(*uncooled_c));
        if *need_kw <= 0.0 {
            return format!("{uncooled}, not above {}: no cooling is wanted.", self.t(*set_point_c));
        }
        format!(
            "{uncooled}. To end at {} takes what keeps a steady room at {}: {} \u{d7} ({} \u{2212} {}) + gains {} = {} \
             of sensible cooling.",
            self.t(*set_point_c),
            self.t(*steady_c),
            self.rate(*loss_kw_k),
            self.t(*outdoor_c),
            self.t(*steady_c),
            self.q(*gains_kw),
            self.q(*need_kw)
        )
    }

    pub(super) fn cooled(&self, step: &Step) -> Vec<String> {
        let Step::Cooled { sensible, wanted_kw, how, cooling_kw, draw_kw, side_kw, side_running_kw } = step
        else {
            return Vec::new();
        };
        let mut lines = vec![format!(
            "{}: of each unit of cooling {} reaches the room as sensible cooling: {} / {} = {} wanted.",
            self.cooler.map_or("", |cooler| &cooler.name),
            grouped(*sensible, 4),
            self.q(wanted_kw * sensible),
            grouped(*sensible, 4),
            self.q(*wanted_kw)
        )];
        lines.extend(self.cooler.into_iter().flat_map(|cooler| self.map(cooler)));
        lines.extend(self.left_to_cooler.into_iter().flat_map(|step| self.shared(step)));
        lines.push(self.running(how, *cooling_kw, *draw_kw));
        lines.extend(self.side(how, *side_kw, *side_running_kw));
        if *cooling_kw < *wanted_kw * (1.0 - 1e-9) {
            lines.push("  It cannot give all that is wanted; the room gets warmer.".into());
        }
        lines
    }

    pub(super) fn ends(&self, end_c: f64, vented_k: f64) -> String {
        match vented_k > 0.0 {
            true => format!(
                "Open windows take {} off; the room ends the hour at {}.",
                self.k(vented_k),
                self.t(end_c)
            ),
            false => format!("The room ends the hour at {}.", self.t(end_c)),
        }
    }
}

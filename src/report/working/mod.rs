//! One moment of one zone written out as arithmetic that a pocket calculator can follow.
//!
//! Every line that has an equals sign can be worked again from the figures before it. Start at [`lines`].

mod words;
mod cost;
mod origin;
mod map;
mod given;
mod running;
mod room;
mod turns;

use super::figures::{Measure, grouped};
use super::wording::MONTHS;
use crate::calendar::Stamp;
use crate::comparison::Comparison;
use crate::comparison::working::Working;
use crate::simulation::working::Step;
use words::Words;

/// The moment in words, a line a step.
pub fn lines(working: &Working, c: &Comparison) -> Vec<String> {
    let words = Words::new(working, c);
    let mut lines = vec![heading(working, words.measure)];
    lines.extend(words.given(working));
    // Where a room is cooled the arithmetic of the heat that it does not want would only puzzle.
    let cooled =
        working.steps.iter().any(|s| matches!(s, Step::CoolingNeed { need_kw, .. } if *need_kw > 0.0));
    let idle = |s: &&Step| matches!(s, Step::Need { need_kw, .. } if cooled && *need_kw <= 0.0);
    for step in working.steps.iter().filter(|s| !idle(s)) {
        lines.extend(words.step(step));
    }
    lines.extend(cost::lines(working, c));
    lines.push("Figures are rounded for print; the program carries all digits.".into());
    lines.iter().map(|line| one_sign(line)).collect()
}

/// No two signs beside each other: less a figure below 0 is as much more.
fn one_sign(line: &str) -> String {
    line.replace("\u{2212} \u{2212}", "+ ").replace("+ \u{2212}", "\u{2212} ")
}

fn heading(working: &Working, measure: Measure) -> String {
    let when = working.stamp.map_or_else(
        || "a steady hour".to_owned(),
        |s| {
            let other = working.standard_hour.filter(|hour| *hour != usize::from(s.hour));
            let other = other.map(|hour| format!(" ({hour:02}:00 in the weather\u{2019}s standard time)"));
            format!("{} by the clock{}", at(s), other.unwrap_or_default())
        },
    );
    let outdoors = format!("{} {}", grouped(measure.temperature(working.outdoor_c), 1), measure.degree());
    format!("{}, {}: {when}, outdoors {outdoors}", working.option, working.zone)
}

/// An hour as "24 Jan, 06:00".
fn at(stamp: Stamp) -> String {
    let month = MONTHS.get(usize::from(stamp.month).saturating_sub(1)).copied().unwrap_or_default();
    format!("{} {month}, {:02}:00", stamp.day, stamp.hour)
}

//! One moment of one zone written out as arithmetic that a pocket calculator can follow.
//!
//! Start at [`lines`].

use super::figures::{Measure, grouped};
use super::wording::{MONTHS, end_use};
use crate::comparison::Comparison;
use crate::comparison::working::{MachineFacts, Working};
use crate::equipment::Presence;
use crate::equipment::map::MapRow;
use crate::simulation::working::{Running, Step};
use crate::units::UnitSystem;

/// Temperatures closer than this are the same, K.
const SAME_K: f64 = 1e-9;

/// The moment in words, a line a step.
pub fn lines(working: &Working, c: &Comparison) -> Vec<String> {
    let words = Words {
        measure: Measure(c.units),
        heaters: &working.heaters,
        cooler: working.cooler.as_ref(),
        is_steady: working.stamp.is_none(),
    };
    let mut lines = vec![heading(working, words.measure)];
    // Where a room is cooled the arithmetic of the heat that it does not want would only puzzle.
    let cooled =
        working.steps.iter().any(|s| matches!(s, Step::CoolingNeed { need_kw, .. } if *need_kw > 0.0));
    let idle = |s: &&Step| matches!(s, Step::Need { need_kw, .. } if cooled && *need_kw <= 0.0);
    for step in working.steps.iter().filter(|s| !idle(s)) {
        lines.extend(words.step(step, working.outdoor_c));
    }
    lines.extend(cost(working, c));
    lines.push("Figures are rounded for print; the program carries all digits.".into());
    lines
}

fn heading(working: &Working, measure: Measure) -> String {
    let when = working.stamp.map_or_else(
        || "a steady hour".to_owned(),
        |s| {
            let month = MONTHS.get(usize::from(s.month).saturating_sub(1)).copied().unwrap_or_default();
            let other = working.standard_hour.filter(|hour| *hour != usize::from(s.hour));
            let other = other.map(|hour| format!(" ({hour:02}:00 in the weather\u{2019}s standard time)"));
            format!("{} {month}, {:02}:00 by the clock{}", s.day, s.hour, other.unwrap_or_default())
        },
    );
    let outdoors = format!("{} {}", grouped(measure.temperature(working.outdoor_c), 1), measure.degree());
    format!("{}, {}: {when}, outdoors {outdoors}", working.option, working.zone)
}

fn cost(working: &Working, c: &Comparison) -> Vec<String> {
    let mut lines = Vec::new();
    let mut total = 0.0;
    for line in &working.cost {
        let Some(fuel) = c.fuels.get(line.fuel) else { continue };
        let (quantity, price) = (line.kwh / fuel.kwh_per_unit, line.price_per_kwh * fuel.kwh_per_unit);
        total += quantity * price;
        let dated = if line.on_the_mean { "paid on the mean of the year" } else { "at that hour's price" };
        let unit = &fuel.selling_unit;
        lines.push(format!(
            "Cost of {} for {}: {} kWh / {} kWh a {unit} = {} {unit}, times {}{} {dated} = {}{}.",
            fuel.name,
            end_use(line.end_use),
            grouped(line.kwh, 3),
            grouped(fuel.kwh_per_unit, 3),
            grouped(quantity, 4),
            c.currency,
            grouped(price, 4),
            c.currency,
            grouped(quantity * price, 4)
        ));
    }
    lines.push(format!("Cost of the hour: {}{}.", c.currency, grouped(total, 4)));
    lines
}

struct Words<'a> {
    measure: Measure,
    heaters: &'a [MachineFacts],
    cooler: Option<&'a MachineFacts>,
    is_steady: bool,
}

impl Words<'_> {
    fn t(&self, celsius: f64) -> String {
        format!("{} {}", grouped(self.measure.temperature(celsius), 2), self.measure.degree())
    }

    fn q(&self, kw: f64) -> String {
        format!("{} {}", grouped(self.measure.power(kw), 3), self.measure.power_unit())
    }

    /// A heat loss rate, in the shown unit of heat flow for each shown degree.
    fn rate(&self, kw_per_k: f64) -> String {
        let value = match self.measure.0 {
            UnitSystem::Us => self.measure.power(kw_per_k) / 1.8,
            UnitSystem::Si => kw_per_k,
        };
        format!("{} {} for each {}", grouped(value, 4), self.measure.power_unit(), self.measure.degree())
    }

    fn name(&self, heater: usize) -> &str {
        self.heaters.get(heater).map_or("", |h| &h.name)
    }

    fn step(&self, step: &Step, outdoor_c: f64) -> Vec<String> {
        match step {
            Step::Need { .. } => self.need(step),
            Step::Wanted { heater, .. } | Step::WantedThrough { heater, .. } => {
                let Some(wanted) = self.wanted(step) else {
                    return vec![format!("{}: nothing is wanted of it.", self.name(*heater))];
                };
                let map = self.heaters.get(*heater).into_iter().flat_map(|h| self.map(h, outdoor_c));
                std::iter::once(wanted).chain(map).collect()
            }
            Step::Output { how, heat_kw, draw_kw, side_kw, .. } => {
                let mut lines = vec![self.running(how, *heat_kw, *draw_kw)];
                lines.extend(self.side(*side_kw));
                lines
            }
            Step::Tempering { .. } => self.tempering(step),
            Step::Defrosting { running_kw, heat_kw, of_bank } => {
                vec![self.defrosting(*running_kw, *heat_kw, *of_bank)]
            }
            Step::Frosty { share } => vec![format!(
                "Of the hours in its bin of 5 \u{b0}F, {} are those in which frost is melted, by their dew points; \
                 what tempers the air is on the mean of all of them.",
                grouped(*share, 4)
            )],
            Step::Turn { heater, share, locked_out } => self.turn(*heater, *share, *locked_out),
            Step::Fuelled { heater, share } => {
                let (name, share) = (self.name(*heater), grouped(*share, 4));
                let until =
                    if self.is_steady { ", the day\u{2019}s spread over the day" } else { " until midnight" };
                vec![format!(
                    "  {name} has fuel for {share} of that{until}: its heat and draw times {share}."
                )]
            }
            Step::Delivered { heat_kw, need_kw } if *heat_kw < *need_kw * (1.0 - 1e-9) => {
                let (heat, need) = (self.q(*heat_kw), self.q(*need_kw));
                vec![format!("In the room: {heat} of {need} wanted; it does not reach its set point.")]
            }
            Step::Delivered { need_kw, .. } if *need_kw <= 0.0 => vec!["No heat is wanted.".into()],
            Step::Delivered { heat_kw, .. } => {
                vec![format!("In the room: {}, all that is wanted.", self.q(*heat_kw))]
            }
            Step::CoolingNeed { .. } => vec![self.cooling_need(step)],
            Step::Cooled { .. } => self.cooled(step, outdoor_c),
            Step::Standby { kw } => {
                vec![format!("Machines that gave nothing draw {} kW while they wait.", grouped(*kw, 4))]
            }
            Step::Ends { end_c, vented_k } if *vented_k > 0.0 => vec![format!(
                "Open windows take {} {} off; the room ends the hour at {}.",
                grouped(self.measure.difference(*vented_k), 2),
                self.measure.degree(),
                self.t(*end_c)
            )],
            Step::Ends { end_c, .. } => vec![format!("The room ends the hour at {}.", self.t(*end_c))],
        }
    }

    fn tempering(&self, step: &Step) -> Vec<String> {
        let Step::Tempering { heater, running, heat_kw, draw_kw, side_kw } = step else { return Vec::new() };
        vec![format!(
            "  Of this, {} gives {} while it defrosts: it tempers the air for {} kW of fuel and {} kW beside it \
             (on the mean of the hour, {} of which the first machine runs); every output above has that in.",
            self.name(*heater),
            self.q(*heat_kw),
            grouped(*draw_kw, 4),
            grouped(*side_kw, 4),
            grouped(*running, 4)
        )]
    }

    fn turn(&self, heater: usize, share: f64, locked_out: bool) -> Vec<String> {
        let name = self.name(heater);
        if share >= 1.0 {
            return Vec::new();
        }
        vec![match (share <= 0.0, locked_out) {
            (true, true) => format!("  {name} is locked out: it is colder than its compressor lock-out."),
            (true, false) => format!("  {name} has no part of this hour: the other one has it."),
            (false, _) => {
                let share = grouped(share, 4);
                format!("  {name} has {share} of the hour: its heat and draw times {share}.")
            }
        }]
    }

    /// What is wanted of a heater; nothing where nothing is.
    fn wanted(&self, step: &Step) -> Option<String> {
        let (Step::Wanted { lacking_kw, .. } | Step::WantedThrough { lacking_kw, .. }) = step else {
            return None;
        };
        if *lacking_kw <= 0.0 {
            return None;
        }
        if let Step::Wanted { heater, lacking_kw, ducts, wanted_kw } = step {
            let (lacking, ducts) = (self.q(*lacking_kw), grouped(*ducts, 3));
            return Some(format!(
                "{}: lacking in the room {lacking}, through ducts that keep {ducts}: {lacking} / {ducts} = {} wanted.",
                self.name(*heater),
                self.q(*wanted_kw)
            ));
        }
        let Step::WantedThrough { heater, lacking_kw, kept, lost_kw, running, wanted_kw } = step else {
            return None;
        };
        Some(format!(
            "{}: lacking in the room {}, through ducts that keep {} of an output and lose {} beside it while air \
             moves, here {} of the hour: ({} + {} \u{d7} {}) / {} = {} wanted.",
            self.name(*heater),
            self.q(*lacking_kw),
            grouped(*kept, 4),
            self.q(*lost_kw),
            grouped(*running, 4),
            self.q(*lacking_kw),
            self.q(*lost_kw),
            grouped(*running, 4),
            grouped(*kept, 4),
            self.q(*wanted_kw)
        ))
    }

    fn defrosting(&self, running_kw: f64, heat_kw: f64, of_bank: bool) -> String {
        let bank = if of_bank { "; of their bank so much less is left for the room" } else { "" };
        format!(
            "  Of this, strips that temper the air while it defrosts ({} on the mean of a running hour) give {} and \
             draw {} kW; every output above has them in{bank}.",
            self.q(running_kw),
            self.q(heat_kw),
            grouped(heat_kw, 4)
        )
    }

    fn cooling_need(&self, step: &Step) -> String {
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
            "{uncooled}. To end at {} takes what keeps a steady room at {}: {}, times ({} \u{2212} {}), and gains {} = \
             {} of sensible cooling.",
            self.t(*set_point_c),
            self.t(*steady_c),
            self.rate(*loss_kw_k),
            self.t(*outdoor_c),
            self.t(*steady_c),
            self.q(*gains_kw),
            self.q(*need_kw)
        )
    }

    fn cooled(&self, step: &Step, outdoor_c: f64) -> Vec<String> {
        let Step::Cooled { sensible, wanted_kw, how, cooling_kw, draw_kw, side_kw } = step else {
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
        lines.extend(self.cooler.into_iter().flat_map(|cooler| self.map(cooler, outdoor_c)));
        lines.push(self.running(how, *cooling_kw, *draw_kw));
        lines.extend(self.side(*side_kw));
        if *cooling_kw < *wanted_kw * (1.0 - 1e-9) {
            lines.push("  It cannot give all that is wanted; the room gets warmer.".into());
        }
        lines
    }

    fn side(&self, side_kw: f64) -> Option<String> {
        let line = format!(
            "  Electricity beside it, for fan, blower, pan heater or strips while it defrosts: {} kW.",
            grouped(side_kw, 4)
        );
        (side_kw > 0.0).then_some(line)
    }

    fn need(&self, step: &Step) -> Vec<String> {
        let Step::Need { loss_kw_k, gains_kw, decay, start_c, set_point_c, outdoor_c, steady_c, need_kw } =
            step
        else {
            return Vec::new();
        };
        let mut lines = Vec::new();
        if *decay > 0.0 {
            lines.push(format!(
                "The room begins the hour at {} and shall end it at {}; {} of a difference is left after an hour, so \
                 it needs as much as a steady room at ({} \u{2212} {} \u{d7} {}) / (1 \u{2212} {}) = {}.",
                self.t(*start_c),
                self.t(*set_point_c),
                grouped(*decay, 5),
                self.t(*set_point_c),
                grouped(*decay, 5),
                self.t(*start_c),
                grouped(*decay, 5),
                self.t(*steady_c)
            ));
        }
        lines.push(format!(
            "Need: {}, times ({} \u{2212} {}), less gains {} = {}{}.",
            self.rate(*loss_kw_k),
            self.t(*steady_c),
            self.t(*outdoor_c),
            self.q(*gains_kw),
            self.q(*need_kw),
            if *need_kw == 0.0 { " (never below 0)" } else { "" }
        ));
        lines
    }

    fn map(&self, heater: &MachineFacts, outdoor_c: f64) -> Vec<String> {
        let off = match heater.presence {
            Presence::On => None,
            Presence::CutOut => Some("at or below its cut-out, so it is off"),
            Presence::NoData => Some("colder than its map reaches, so it counts as off"),
            Presence::LockedOut => Some("warmer than its lock-out, so it is off"),
        };
        let by_air = heater.source_c == outdoor_c;
        let by = if by_air { "Outdoors" } else { "What the ground loop brings," };
        if let Some(why) = off {
            return vec![format!("  {by} {} is {why}.", self.t(heater.source_c))];
        }
        let (Some((low, high, share)), Some(row)) = (heater.rows, heater.row) else { return Vec::new() };
        let loop_brings = format!("  Its ground loop brings {}.", self.t(heater.source_c));
        let mut lines = if by_air { Vec::new() } else { vec![loop_brings] };
        lines.push(format!("  Row of its map at {}: {}.", self.t(low.outdoor_c), self.row(&low)));
        if high.outdoor_c != low.outdoor_c {
            lines.push(format!("  Row of its map at {}: {}.", self.t(high.outdoor_c), self.row(&high)));
            let at = format!("  At {}, {} of the way:", self.t(row.outdoor_c), grouped(share, 4));
            lines.push(format!("{at} {}.", self.row(&row)));
        }
        lines.extend(self.beyond(heater.source_c, (low.outdoor_c, high.outdoor_c), row.outdoor_c));
        lines
    }

    /// What holds where a map is asked beyond its rows.
    fn beyond(&self, source_c: f64, (low_c, high_c): (f64, f64), row_c: f64) -> Option<String> {
        let side = match source_c {
            t if t > high_c + SAME_K => "Warmer",
            t if t < low_c - SAME_K => "Colder",
            _ => return None,
        };
        let what = match (row_c - source_c).abs() <= SAME_K {
            true => "the line through its last two rows goes on".to_owned(),
            false => format!("what it gives at {} holds", self.t(row_c)),
        };
        Some(format!("  {side} than the rows of its map: {what}."))
    }

    fn row(&self, row: &MapRow) -> String {
        let point = |name, p: crate::equipment::map::Point| {
            format!("{name} {} for {} kW", self.q(p.capacity_kw), grouped(p.power_kw, 4))
        };
        let mut parts = Vec::new();
        if row.least != row.greatest {
            parts.push(point("least", row.least));
        }
        if row.rated != row.greatest && row.rated != row.least {
            parts.push(point("rated", row.rated));
        }
        parts.push(point("greatest", row.greatest));
        parts.join(", ")
    }

    fn running(&self, how: &Running, heat_kw: f64, draw_kw: f64) -> String {
        let draw = grouped(draw_kw, 4);
        match how {
            Running::Off if draw_kw > 0.0 => format!("  It gives nothing; its pilot burns {draw} kW."),
            Running::Off => "  It gives nothing and draws nothing.".into(),
            Running::Cycling { least_kw, power_least_kw, cycling_loss, share, .. }
                if *cycling_loss == 0.0 =>
            {
                format!(
                    "  It gives {} of {}, a share of {}; draw {} kW \u{d7} {} = {draw} kW.",
                    self.q(heat_kw),
                    self.q(*least_kw),
                    grouped(*share, 4),
                    grouped(*power_least_kw, 4),
                    grouped(*share, 4)
                )
            }
            Running::Cycling { least_kw, power_least_kw, cycling_loss, share, part_load_factor } => format!(
                "  It gives {}, less than its least {}, so it cycles: share {}; 1 \u{2212} {} \u{d7} (1 \u{2212} \
                 share) = {}; draw {} kW \u{d7} {} / {} = {draw} kW.",
                self.q(heat_kw),
                self.q(*least_kw),
                grouped(*share, 4),
                grouped(*cycling_loss, 3),
                grouped(*part_load_factor, 4),
                grouped(*power_least_kw, 4),
                grouped(*share, 4),
                grouped(*part_load_factor, 4)
            ),
            Running::Between { slope, .. } if *slope == 0.0 => {
                format!("  It gives {}; draw {draw} kW.", self.q(heat_kw))
            }
            Running::Between { from_kw, power_kw, slope } => format!(
                "  It gives {}; draw {} kW + {} kW for each further {} \u{d7} ({} \u{2212} {}) = {draw} kW.",
                self.q(heat_kw),
                grouped(*power_kw, 4),
                grouped(*slope / self.measure.power(1.0), 5),
                self.measure.power_unit(),
                self.q(heat_kw),
                self.q(*from_kw)
            ),
        }
    }
}

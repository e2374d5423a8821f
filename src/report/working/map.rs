//! What a machine's output rests on: the rows of its map, or why it is off.
//!
//! Start at [`Words::map`].

use super::words::Words;
use crate::comparison::working::MachineFacts;
use crate::equipment::Presence;
use crate::equipment::machine::EXTRAPOLATION_K;
use crate::equipment::map::{MapRow, Point};
use crate::equipment::origin::RowOrigin;
use crate::report::figures::grouped;

/// Temperatures closer than this are the same, K.
const SAME_K: f64 = 1e-9;

impl Words<'_> {
    pub(super) fn map(&self, facts: &MachineFacts) -> Vec<String> {
        if let Some(why) = self.why_off(facts) {
            return vec![format!("  {why}")];
        }
        let mut lines: Vec<_> = facts.entering.iter().flat_map(|entering| self.entering(entering)).collect();
        lines.extend(facts.burner.map(|burner| self.burner(&burner)));
        lines.extend(self.in_band(facts));
        let (Some((low, high, share)), Some(row)) = (facts.rows, facts.row) else { return lines };
        let [low_from, high_from] = &facts.row_origins;
        lines.extend(facts.rows_from.as_ref().and_then(|from| self.rows_from(from)));
        lines.extend(self.row_of_map(&low, low_from.as_ref()));
        if high.outdoor_c != low.outdoor_c && share.abs() > SAME_K {
            lines.extend(self.row_of_map(&high, high_from.as_ref()));
            lines.extend(self.between((&low, &high), share, &row, facts.on_the_line));
        }
        lines.extend(self.beyond(facts.source_c, (low.outdoor_c, high.outdoor_c), row.outdoor_c));
        lines
    }

    /// That a steady hour between cut-out and cut-on does not know what was before it.
    fn in_band(&self, facts: &MachineFacts) -> Option<String> {
        let up_to_c = facts.cut_out.map(|cut_out| cut_out.cut_on_c).filter(|_| self.is_steady)?;
        (facts.source_c <= up_to_c + SAME_K).then(|| {
            format!(
                "  Here it runs, as on the way down to its cut-out; once the cold has stopped it, it stays off up to \
                 {}, and so it counts on the coldest night.",
                self.t(up_to_c)
            )
        })
    }

    fn row_of_map(&self, row: &MapRow, from: Option<&RowOrigin>) -> Vec<String> {
        let line = from.and_then(|from| from.line).map(|line| format!(" (line {line} of the job)"));
        let told = format!(
            "  Row of its map at {}{}: {}.",
            self.t(row.outdoor_c),
            line.unwrap_or_default(),
            self.row(row)
        );
        std::iter::once(told).chain(from.into_iter().flat_map(|from| self.row_origin(row, from))).collect()
    }

    fn goes_by_air(&self, facts: &MachineFacts) -> bool {
        facts.source_c == self.outdoor_c
    }

    /// Why the machine is off, if it is.
    fn why_off(&self, facts: &MachineFacts) -> Option<String> {
        let by = if self.goes_by_air(facts) { "Outdoors" } else { "What the ground loop brings," };
        let at = format!("{by} {}", self.t(facts.source_c));
        match facts.presence {
            Presence::On if facts.interrupted => {
                Some("Its supplier has it switched off in this hour.".into())
            }
            Presence::On => None,
            Presence::CutOut => Some(self.cut_out(facts, &at)),
            Presence::NoData => Some(format!(
                "{at} is colder than its map reaches, {} below its coldest row at {}: it counts as off.",
                self.k(EXTRAPOLATION_K),
                self.t(facts.coldest_row_c)
            )),
            Presence::LockedOut => {
                let above = facts.lockout_above_c.map(|t| self.t(t)).unwrap_or_default();
                Some(format!("{at} is warmer than its lock-out of {above}, so it is off."))
            }
        }
    }

    fn cut_out(&self, facts: &MachineFacts, at: &str) -> String {
        let Some(cut_out) = facts.cut_out else { return format!("{at}: it is off.") };
        let since = cut_out.since.map(|stamp| format!(", as it has been since {}", super::at(stamp)));
        let since = since.unwrap_or_default();
        // At the cut-out itself a rounding error of one way to °C decides nothing.
        match facts.source_c > cut_out.cut_out_c + SAME_K {
            true => format!(
                "{at} is above its cut-out of {} but not above {}, from where on it starts again: it is off{since}.",
                self.t(cut_out.cut_out_c),
                self.t(cut_out.cut_on_c)
            ),
            false => {
                format!("{at} is at or below its cut-out of {}: it is off{since}.", self.t(cut_out.cut_out_c))
            }
        }
    }

    /// The row between two of the map, point by point.
    fn between(
        &self,
        (low, high): (&MapRow, &MapRow),
        share: f64,
        row: &MapRow,
        on_the_line: bool,
    ) -> Vec<String> {
        let way = grouped(share, 4);
        let mut lines = vec![format!(
            "  {} is ({} \u{2212} {}) / ({} \u{2212} {}) = {way} of the way{}",
            self.t(row.outdoor_c),
            self.t(row.outdoor_c),
            self.t(low.outdoor_c),
            self.t(high.outdoor_c),
            self.t(low.outdoor_c),
            if on_the_line {
                ":".into()
            } else {
                format!(", nothing below 0 nor a least above the greatest: {}.", self.row(row))
            }
        )];
        if !on_the_line {
            return lines;
        }
        let points =
            [("least", low.least, high.least, row.least), ("rated", low.rated, high.rated, row.rated)];
        let greatest = ("greatest", low.greatest, high.greatest, row.greatest);
        let told = points.into_iter().filter(|(_, a, b, _)| *a != low.greatest || *b != high.greatest);
        let point = |(name, a, b, is): (&str, Point, Point, Point)| {
            format!(
                "    {name} {} + {way} \u{d7} ({} \u{2212} {}) = {}, for {} kW + {way} \u{d7} ({} kW \u{2212} {} kW) = {} kW",
                self.q(a.capacity_kw),
                self.q(b.capacity_kw),
                self.q(a.capacity_kw),
                self.q(is.capacity_kw),
                grouped(a.power_kw, 4),
                grouped(b.power_kw, 4),
                grouped(a.power_kw, 4),
                grouped(is.power_kw, 4)
            )
        };
        lines.extend(told.chain([greatest]).map(point));
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

    pub(super) fn row(&self, row: &MapRow) -> String {
        let point =
            |name, p: Point| format!("{name} {} for {} kW", self.q(p.capacity_kw), grouped(p.power_kw, 4));
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
}

//! Dated rows whose dates or times cannot be those that were meant: some days years away from all others, times a
//! minute early.
//!
//! Looks only where rows do not fit, as records have very many of them; changes nothing. Start at [`far_rows`] and
//! [`cut_times`].

use super::dated::words;
use super::gaps::MOST_MISSING;
use super::reading::Remark;
use super::when::time_of;
use crate::problem::Problem;

/// So long a step between two rows, four weeks, parts them, minutes.
const FAR: i64 = 28 * 24 * 60;
/// Fewer than one in so many of the rows on the other side are a slip of the pen.
const FEW: usize = 10;

/// Rows that lie apart from nearly all others: their date and line, for a file of which no year can be made.
pub(super) fn far_rows(minutes: &[i64], lines: &[u32]) -> Option<Problem> {
    let parts: Vec<&[i64]> = minutes.chunk_by(|a, b| b - a < FAR).collect();
    let most = parts.iter().max_by_key(|part| part.len())?;
    let far = parts.iter().find(|part| part.len() * FEW < most.len())?;
    let at = minutes.iter().position(|minute| Some(minute) == far.first())?;
    let (rows, are) = if far.len() == 1 { ("row", "is") } else { ("rows", "are") };
    let until = if far.len() == 1 { String::new() } else { format!(" to {}", words(*far.last()?)) };
    let what = format!(
        "{} {rows} {are} dated {}{until}, far from the others, which run from {} to {}",
        far.len(),
        words(*far.first()?),
        words(*most.first()?),
        words(*most.last()?)
    );
    let help = "Is a digit of the year or the month wrong? Write the days that are meant; take the rows out only where the \
                others have every hour";
    let problem = Problem::new(what).help(help);
    Some(match lines.get(at) {
        Some(line) if *line > 0 => problem.at_line(*line as usize),
        _ => problem,
    })
}

/// The way out for times that were cut.
const ROUND: &str = "Round them in the spreadsheet (=ROUND(A2*24,0)/24, shown as date and time), and save it as CSV \
     again: its full hours may lie a trifle below the hour, and were cut to the minute or second before";

/// Times that look cut, 00:59 for 01:00: the later of two rows in one hour, at its last minute, and no row in the next.
///
/// # Errors
/// More than 5 % of so many hours lack their row by this.
pub(super) fn cut_times(minutes: &[i64], hours: usize) -> Result<Option<Remark>, Problem> {
    let hour = |minute: i64| minute.div_euclid(60);
    let is_cut = |rows: &&[i64]| match rows {
        [before, cut, next] => {
            cut.rem_euclid(60) == 59 && hour(*before) == hour(*cut) && hour(*next) > hour(*cut) + 1
        }
        _ => false,
    };
    let mut cut = minutes.windows(3).filter(is_cut).filter_map(|rows| rows.get(1));
    let Some(first) = cut.next() else { return Ok(None) };
    let times = 1 + cut.count();
    if times as f64 <= MOST_MISSING * hours as f64 {
        return Ok(time_of(*first).map(|at| Remark::CutTimes { times, at }));
    }
    let what = format!(
        "{times} times look cut instead of rounded: two rows fall into one hour, the later in its last minute, and none \
         into the next, first at {}",
        words(*first)
    );
    Err(Problem::new(what).help(ROUND))
}

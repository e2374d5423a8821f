//! Files of dated rows, one or several, each put into order and set behind each other.
//!
//! Must never know a layout, nor choose what years are taken. Start at [`join`].

use super::cells::Field;
use super::dated::{Clock, Dated, words};
use super::findings::Findings;
use super::labels::{Labels, labels};
use super::reading::Remark;
use super::same_place::same_place;
use super::stream::hash_of_all;
use super::when::{date_of, minute_of};
use crate::calendar::TYPICAL_YEAR;
use crate::problem::{Problem, Problems};
use chrono::{Datelike, NaiveDate};

/// The share of rows whose hour may stand twice; this program's own choice.
const MOST_TWICE: f64 = 0.05;

/// Puts each file's rows into order and several files behind each other, by their first hours.
///
/// Of several, the first file's place holds, and the columns that all have.
///
/// # Errors
/// Files with many hours twice, that overlap or follow different clocks.
pub(super) fn join(mut parts: Vec<Dated>) -> Result<Dated, Problems> {
    let mut problems = Problems::new();
    for part in &mut parts {
        problems.extend(ordered(part).err().into_iter().flatten());
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    parts.sort_by_key(|part| part.minutes.first().copied());
    let sha256 = hash_of_all(&parts.iter().map(|part| part.sha256.as_str()).collect::<Vec<_>>());
    let mut parts = parts.into_iter();
    let Some(mut whole) = parts.next() else {
        return Err(vec![Problem::new("there is no weather file")]);
    };
    whole.files.extend(whole.reach());
    for part in parts {
        append(&mut whole, part, &mut problems);
    }
    whole.sha256 = sha256;
    name_of_all(&mut whole);
    if problems.is_empty() { Ok(whole) } else { Err(problems) }
}

/// A place that is no more than the first file's name says how many others there are.
fn name_of_all(whole: &mut Dated) {
    let others = whole.files.len().saturating_sub(1);
    if others > 0 && whole.site.place == whole.file {
        let files = if others == 1 { "file" } else { "files" };
        whole.site.place = format!("{} and {others} more {files}", whole.site.place);
    }
}

fn append(whole: &mut Dated, part: Dated, problems: &mut Problems) {
    let overlap = part.minutes.first() <= whole.minutes.last();
    if overlap || part.typical || whole.typical {
        let what = match overlap {
            true => overlap_words(whole, &part),
            false => "it is a typical year, which cannot be one of several".to_owned(),
        };
        let problem = Problem::new(what).in_file(part.file.clone());
        problems.push(problem.help("Give each year once, as actual years of one place"));
        return;
    }
    if part.clock != whole.clock {
        let problem = Problem::new(format!("its hours follow another clock than those of {}", whole.file));
        problems.push(problem.in_file(part.file.clone()).help("Give files of one source"));
        return;
    }
    whole.offsets = match (whole.offsets, part.offsets) {
        (Some((least, most)), Some((other_least, other_most))) => {
            Some((least.min(other_least), most.max(other_most)))
        }
        (one, other) => one.or(other),
    };
    match same_place(whole, &part) {
        Ok(remark) => whole.reading.remarks.extend(remark),
        Err(problem) => problems.push(problem.in_file(part.file.clone())),
    }
    whole.files.extend(part.reach());
    let rows = part.reading.rows;
    let remarks = set_behind(whole, part);
    whole.reading.rows += rows;
    for remark in remarks {
        if !whole.reading.remarks.contains(&remark) {
            whole.reading.remarks.push(remark);
        }
    }
}

/// Which file has the hours already, and from where to where both have them.
fn overlap_words(whole: &Dated, part: &Dated) -> String {
    let first = part.minutes.first().copied().unwrap_or_default();
    let other = whole.files.iter().rfind(|(_, _, last)| *last >= first);
    let (name, last) = other.map_or((whole.file.as_str(), first), |(name, _, last)| (name, *last));
    let last = part.minutes.last().map_or(last, |own| last.min(*own));
    format!("its hours from {} to {} are in {name} already", words(first), words(last))
}

/// The rows of one file behind those of others, of the columns that all have; what there is to say of it.
fn set_behind(whole: &mut Dated, part: Dated) -> Vec<Remark> {
    let missing = |field: Field| part.hours.columns.iter().all(|(column, _)| column.field != field);
    let (kept, dropped): (Vec<_>, Vec<_>) =
        std::mem::take(&mut whole.hours.columns).into_iter().partition(|(column, _)| !missing(column.field));
    whole.hours.columns = kept;
    whole.reading.columns_passed_over.extend(dropped.into_iter().map(|(column, _)| column.title));
    for (column, values) in &mut whole.hours.columns {
        let more = part.hours.columns.iter().find(|(other, _)| other.field == column.field);
        values.extend(more.into_iter().flat_map(|(_, values)| values.iter().copied()));
    }
    whole.hours.lines.extend(part.hours.lines);
    whole.minutes.extend(part.minutes);
    part.reading.remarks
}

/// Puts the rows of one file into order and says where they were not; the months of a typical year are
/// laid on one calendar first.
fn ordered(part: &mut Dated) -> Result<(), Problems> {
    part.typical = part.typical || months_of_different_years(&part.minutes);
    if part.typical {
        on_one_calendar(part);
    }
    let dry_bulb = part.hours.columns.iter().find(|(column, _)| column.field == Field::DryBulb);
    let mut labels = labels(&part.minutes, dry_bulb.map_or(&[], |(_, values)| values));
    if matches!(part.clock, Clock::Offset(_)) {
        // A clock that is never put forward may lack that hour by chance.
        labels.retain(|labels| !matches!(labels, Labels::DaylightSaving { doubled: None, .. }));
    }
    if let Some(doubled) = labels.iter().find_map(|labels| too_many(labels, &part.minutes)) {
        return Err(Findings::new(&part.file).end(doubled));
    }
    if !part.minutes.is_sorted() {
        sort(part);
    }
    part.reading.remarks.extend(labels.into_iter().map(Remark::Labels));
    Ok(())
}

/// The refusal of a file many of whose hours stand twice: which of the two would hold?
fn too_many(labels: &Labels, minutes: &[i64]) -> Option<Problem> {
    let Labels::Duplicated { at, times, .. } = labels else { return None };
    let hour = |minute: &i64| minute.div_euclid(60).rem_euclid(24);
    let help = match minutes.iter().all(|minute| (1..=12).contains(&hour(minute))) {
        true => {
            "The hours run from 1 to 12: is this a clock of twelve hours without AM and PM? Have the source write \
             them, or hours from 0 to 23"
        }
        false => "Give each hour once; take out a second station or a second copy",
    };
    (*times as f64 > MOST_TWICE * minutes.len() as f64).then(|| {
        let first = at.format("%-d %B %Y %H:%M");
        let rows = minutes.len();
        Problem::new(format!(
            "{times} of {rows} rows repeat a date and time that an earlier row has, first {first}"
        ))
        .allowed("each hour once, in order")
        .help(help)
    })
}

fn sort(part: &mut Dated) {
    let mut order: Vec<usize> = (0..part.minutes.len()).collect();
    order.sort_by_key(|row| part.minutes.get(*row));
    fn sorted<T: Copy>(values: &mut Vec<T>, order: &[usize]) {
        *values = order.iter().filter_map(|row| values.get(*row)).copied().collect();
    }
    sorted(&mut part.minutes, &order);
    sorted(&mut part.hours.lines, &order);
    part.hours.columns.iter_mut().for_each(|(_, values)| sorted(values, &order));
}

/// Whether the rows are January to December, each month of one year but not all of the same.
fn months_of_different_years(minutes: &[i64]) -> bool {
    let mut months: Vec<(u32, i32)> = Vec::with_capacity(12);
    for (date, _) in minutes.iter().filter_map(|m| date_of(*m)) {
        let month = (date.month(), date.year());
        if months.last() != Some(&month) {
            months.push(month);
        }
        if months.len() > 12 {
            return false;
        }
    }
    let in_order = months.len() == 12 && months.iter().zip(1..).all(|((month, _), i)| *month == i);
    in_order && months.iter().any(|(_, year)| Some(*year) != months.first().map(|(_, year)| *year))
}

/// Lays every row on the calendar of typical years; rows of a 29 February are taken out.
fn on_one_calendar(part: &mut Dated) {
    let laid = |minutes: &i64| {
        let (date, minute) = date_of(*minutes)?;
        let day = NaiveDate::from_ymd_opt(TYPICAL_YEAR, date.month(), date.day())?;
        Some(minute_of(day) + minute)
    };
    let laid: Vec<Option<i64>> = part.minutes.iter().map(laid).collect();
    let mut kept = laid.iter().map(Option::is_some);
    part.hours.lines.retain(|_| kept.next().unwrap_or_default());
    for (_, values) in &mut part.hours.columns {
        let mut kept = laid.iter().map(Option::is_some);
        values.retain(|_| kept.next().unwrap_or_default());
    }
    part.minutes = laid.into_iter().flatten().collect();
    part.reading.rows_skipped = part.reading.rows - part.minutes.len();
}

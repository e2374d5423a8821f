//! One or several weather sources into tables: how cold, how long, how often.
//!
//! Words what `weather_figures` gathers. Start at [`report`].

use super::figures::{Measure, grouped};
use super::model::{Cell, Column, Report, Table};
use super::weather_figures::{COLD_DAYS, Figures, LIMITS_F, Spell, date, figures, kind, moment, span};
use super::wording::MONTHS;
use super::{extremes, reading, weather_flags};
use crate::units::fahrenheit_to_celsius;
use crate::weather::extremes::{Extremes, Winters};
use crate::weather::statistics::{bins_1_kelvin, bins_5_fahrenheit};
use crate::weather::{BinTable, OutdoorYear, Weather, YearKind, quality};
use chrono_tz::Tz;
use std::collections::BTreeMap;

/// One weather source as it was asked for.
pub struct Asked<'a> {
    /// The built-in place's key or the file's name.
    pub name: &'a str,
    /// What it holds, of a record the one year that is summed up.
    pub weather: &'a Weather,
    /// The winters of the record that the year is out of.
    pub winters: Option<&'a Winters>,
    /// The place's time zone, where whoever asks names it.
    pub zone: Option<Tz>,
}

/// One source with its figures, if it has hours.
struct Summed<'a> {
    name: &'a str,
    weather: &'a Weather,
    winters: Option<&'a Winters>,
    zone: Option<Tz>,
    figures: Option<Figures>,
    bins: BinTable,
}

/// Sums up the sources side by side.
pub fn report(asked: &[Asked<'_>], measure: Measure) -> Report {
    let summed: Vec<Summed<'_>> = asked.iter().map(|one| sum(one, measure)).collect();
    let mut tables = vec![side_by_side(&summed, measure)];
    let records: Vec<_> = summed.iter().filter_map(|s| Some((s.name, s.extremes()?))).collect();
    tables.extend(extremes::table(&records, measure));
    tables.extend(summed.iter().filter_map(|one| months(one, summed.len() > 1, measure)));
    tables.push(bins(&summed, measure));
    Report {
        title: "Weather summary".into(),
        about: Vec::new(),
        verdict: summed.iter().filter_map(|one| cold_sentence(one, measure)).collect(),
        tipping_price: None,
        tables,
        appendices: vec![long_months(&summed, measure)],
        notes: notes(&summed, measure),
        assumptions: Vec::new(),
        cautions: Vec::new(),
        foot: foot(&summed),
    }
}

impl Summed<'_> {
    fn extremes(&self) -> Option<&Extremes> {
        self.winters?.extremes.as_ref()
    }
}

fn sum<'a>(asked: &Asked<'a>, measure: Measure) -> Summed<'a> {
    let (figures, bins) = match asked.weather {
        Weather::Year(year) => (figures(year), bins_of(year, measure)),
        Weather::Bins(bins) => (None, bins.clone()),
        Weather::Record(record) => (None, bins_5_fahrenheit(&record.place, &record.columns.dry_bulb_c)),
    };
    let Asked { name, weather, winters, zone } = *asked;
    Summed { name, weather, winters, zone, figures, bins }
}

fn bins_of(year: &OutdoorYear, measure: Measure) -> BinTable {
    match measure.degree_key() {
        "degF" => bins_5_fahrenheit(&year.place, &year.columns.dry_bulb_c),
        _ => bins_1_kelvin(&year.place, &year.columns.dry_bulb_c),
    }
}

/// A line of the side-by-side table: its words, and each source's cell.
type Line = (String, Box<dyn Fn(&Summed<'_>) -> Cell>);

fn line(words: impl Into<String>, cell: impl Fn(&Summed<'_>) -> Cell + 'static) -> Line {
    (words.into(), Box::new(cell))
}

/// A line that only sources with hours have.
fn of_hours(words: impl Into<String>, cell: impl Fn(&Figures) -> Cell + 'static) -> Line {
    line(words, move |s| s.figures.as_ref().map_or(Cell::Missing, &cell))
}

fn side_by_side(summed: &[Summed<'_>], measure: Measure) -> Table {
    let mut columns = vec![Column::words("", "figure")];
    columns.extend(summed.iter().map(|s| Column::numbers(s.name, s.name)));
    let lines = lines(measure);
    let row = |(words, cell): &Line| {
        std::iter::once(Cell::text(words.as_str())).chain(summed.iter().map(cell)).collect()
    };
    Table {
        name: "weather".into(),
        heading: "How cold, how long, how often".into(),
        columns,
        rows: lines.iter().map(row).collect(),
        remark: Some(format!(
            "Design temperatures are exceeded by 99.6 %, 99 %, 1 % and 0.4 % of this year\u{2019}s own hours; \
             those that codes ask for come from many years. Degree-days from daily means, base {}.",
            measure.pick("65 \u{b0}F", "18.3 \u{b0}C")
        )),
    }
}

fn lines(measure: Measure) -> Vec<Line> {
    let degree = measure.degree();
    let t = move |c: f64| Cell::number(measure.temperature(c), 1);
    let days = move |k: f64| Cell::number(measure.difference(k), 0);
    let mut lines = vec![
        line("place", |s| Cell::text(place(s.weather))),
        line("kind", |s| Cell::text(kind_words(s.weather))),
        line("hours", |s| Cell::number(s.bins.bins.iter().map(|b| b.hours).sum(), 0)),
        of_hours(format!("mean, {degree}"), move |f| t(f.mean_c)),
        of_hours(format!("coldest hour, {degree}"), move |f| t(f.coldest.temperature_c)),
        of_hours("  on", |f| Cell::text(moment(f.coldest.time))),
        of_hours(format!("warmest hour, {degree}"), move |f| t(f.warmest.temperature_c)),
        of_hours("  on", |f| Cell::text(moment(f.warmest.time))),
        of_hours(format!("heating degree-days, {degree}\u{b7}day"), move |f| days(f.heating_days)),
        of_hours(format!("cooling degree-days, {degree}\u{b7}day"), move |f| days(f.cooling_days)),
        of_hours(format!("heating design 99.6 %, {degree}"), move |f| t(f.heating_design_c[0])),
        of_hours(format!("heating design 99 %, {degree}"), move |f| t(f.heating_design_c[1])),
        of_hours(format!("cooling design 1 %, {degree}"), move |f| t(f.cooling_design_c[0])),
        of_hours(format!("cooling design 0.4 %, {degree}"), move |f| t(f.cooling_design_c[1])),
    ];
    for (i, limit) in LIMITS_F.into_iter().enumerate() {
        let limit = measure.temperature(fahrenheit_to_celsius(limit));
        let words = format!("hours below {} {degree}", grouped(limit, usize::from(degree == "\u{b0}C")));
        lines.push(of_hours(words, move |f| {
            f.hours_below.get(i).map_or(Cell::Missing, |hours| Cell::number(*hours as f64, 0))
        }));
    }
    let of_spell = |cell: fn(&Spell) -> Cell| move |f: &Figures| f.spell.as_ref().map_or(Cell::Missing, cell);
    lines
        .push(of_hours("longest spell below 99 %, h", of_spell(|spell| Cell::number(spell.hours as f64, 0))));
    lines.push(of_hours("  from", of_spell(|spell| Cell::text(moment(spell.start)))));
    lines.push(of_hours(format!("coldest {COLD_DAYS} days, mean {degree}"), move |f| t(f.cold_days.mean_c)));
    lines.push(of_hours("  from", |f| Cell::text(date(f.cold_days.start))));
    lines
}

fn place(weather: &Weather) -> String {
    match weather {
        Weather::Year(year) => year.place.clone(),
        Weather::Bins(bins) => bins.place.clone(),
        Weather::Record(record) => record.place.clone(),
    }
}

fn kind_words(weather: &Weather) -> String {
    match weather {
        Weather::Year(year) => kind(year),
        Weather::Bins(_) => "hours by temperature only".into(),
        Weather::Record(record) => format!("record from {} to {}", record.first_day, record.end_day()),
    }
}

fn cold_sentence(s: &Summed<'_>, measure: Measure) -> Option<String> {
    let f = s.figures.as_ref()?;
    let below = measure.temperature_words(f.heating_design_c[1]);
    let spell = f.spell.as_ref().map_or_else(String::new, |spell| {
        format!("; {} hours in a row below {below} ({})", grouped(spell.hours as f64, 0), span(spell))
    });
    Some(format!(
        "{}: down to {} on {}{spell}; the coldest {COLD_DAYS} days, from {}, have a \
         mean of {}.",
        s.name,
        measure.temperature_words(f.coldest.temperature_c),
        moment(f.coldest.time),
        date(f.cold_days.start),
        measure.temperature_words(f.cold_days.mean_c)
    ))
}

/// Columns of temperatures and degree-days by month.
fn month_columns(measure: Measure) -> Vec<Column> {
    let (degree, key) = (measure.degree(), measure.degree_key());
    let column =
        |head: &str, name: &str| Column::numbers(format!("{head}, {degree}"), format!("{name}_{key}"));
    vec![
        column("mean", "mean"),
        column("mean low", "mean_daily_low"),
        column("mean high", "mean_daily_high"),
        column("lowest", "lowest"),
        column("highest", "highest"),
        Column::numbers(format!("heating {degree}\u{b7}day"), format!("heating_{key}_day")),
    ]
}

fn month_rows(f: &Figures, measure: Measure) -> Vec<Vec<Cell>> {
    let t = |c: f64| Cell::number(measure.temperature(c), 1);
    let row = |m: &super::weather_figures::Month| {
        let name = MONTHS.get(m.number as usize - 1).copied().unwrap_or_default();
        let days = Cell::number(measure.difference(m.heating_days), 0);
        vec![
            Cell::text(name),
            t(m.mean_c),
            t(m.mean_low_c),
            t(m.mean_high_c),
            t(m.lowest_c),
            t(m.highest_c),
            days,
        ]
    };
    f.months.iter().map(row).collect()
}

fn months(s: &Summed<'_>, several: bool, measure: Measure) -> Option<Table> {
    let mut columns = vec![Column::words("", "month")];
    columns.extend(month_columns(measure));
    let whose = if several { format!(", {}", s.name) } else { String::new() };
    Some(Table {
        name: "months".into(),
        heading: format!("By month{whose}"),
        columns,
        rows: month_rows(s.figures.as_ref()?, measure),
        remark: None,
    })
}

/// All sources' months in one table, for files.
fn long_months(summed: &[Summed<'_>], measure: Measure) -> Table {
    let mut columns = vec![Column::words("", "source"), Column::words("", "month")];
    columns.extend(month_columns(measure));
    let with_name = |s: &Summed<'_>| {
        let name = Cell::text(s.name);
        let rows = s.figures.as_ref().map_or_else(Vec::new, |f| month_rows(f, measure));
        rows.into_iter()
            .map(move |row| std::iter::once(name.clone()).chain(row).collect())
            .collect::<Vec<_>>()
    };
    let rows = summed.iter().flat_map(with_name).collect();
    Table { name: "months".into(), heading: "By month".into(), columns, rows, remark: None }
}

fn bins(summed: &[Summed<'_>], measure: Measure) -> Table {
    let (degree, key) = (measure.degree(), measure.degree_key());
    let mut columns = vec![Column::numbers(format!("middle, {degree}"), format!("bin_{key}"))];
    columns.extend(summed.iter().map(|s| Column::numbers(s.name, format!("{}_hours", s.name))));
    // Thousandths of a degree: the same bin of two sources must be one row.
    let mut middles: BTreeMap<i64, Vec<Cell>> = BTreeMap::new();
    for (i, s) in summed.iter().enumerate() {
        for bin in &s.bins.bins {
            let middle = (measure.temperature(bin.temperature_c) * 1000.0).round() as i64;
            let row = middles.entry(middle).or_insert_with(|| vec![Cell::number(0.0, 0); summed.len()]);
            if let Some(cell) = row.get_mut(i) {
                *cell = Cell::number(bin.hours, 0);
            }
        }
    }
    let row = |(middle, cells): (i64, Vec<Cell>)| {
        let decimals = usize::from(middle % 1000 != 0);
        std::iter::once(Cell::number(middle as f64 / 1000.0, decimals)).chain(cells).collect()
    };
    Table {
        name: "bins".into(),
        heading: "Hours by outdoor temperature".into(),
        columns,
        rows: middles.into_iter().rev().map(row).collect(),
        remark: None,
    }
}

/// So many suspicions of winters that are not summed up are told; more would say nothing new.
const MOST_OF_OTHER_WINTERS: usize = 5;

fn notes(summed: &[Summed<'_>], measure: Measure) -> Vec<String> {
    let mut notes = Vec::new();
    for s in summed {
        if let Weather::Year(year) = s.weather {
            let read = year.reading.iter();
            let words = read.map(reading::taken);
            let remarks = year.remarks_to_tell();
            let words = words.chain(remarks.map(|remark| reading::remark(remark, measure)));
            let flags = quality::flags_in(year, s.zone);
            let beside = s.winters.iter().flat_map(|winters| winters.suspect_beside(year.kind));
            let left_out =
                s.winters.iter().map(|winters| &winters.left_out).filter(|years| !years.is_empty());
            let words = words.chain(left_out.map(|years| reading::winters_left_out(years)));
            let words = words.chain(
                flags
                    .iter()
                    .chain(beside.take(MOST_OF_OTHER_WINTERS))
                    .map(|flag| weather_flags::words(flag, measure)),
            );
            notes.extend(words.map(|words| format!("{}: {words}", s.name)));
        }
        match s.weather {
            Weather::Year(year) if year.filled_hours > 0 => {
                notes.push(format!(
                    "{}: {}",
                    s.name,
                    reading::filled(year.filled_hours, year.filled_at().as_ref())
                ));
            }
            Weather::Year(_) | Weather::Record(_) => {}
            Weather::Bins(bins) => {
                let only = "hours by temperature only; what needs them in order is not given.";
                let flag = quality::of_bins(bins).map(|flag| weather_flags::words(&flag, measure));
                notes.extend(
                    [only.to_owned()].into_iter().chain(flag).map(|words| format!("{}: {words}", s.name)),
                );
            }
        }
    }
    notes.extend(summed.iter().filter_map(extremes_note));
    notes
}

/// Which year of a record is summed up, and why there are no lows where there are none.
fn extremes_note(s: &Summed<'_>) -> Option<String> {
    let Weather::Year(year) = s.weather else { return None };
    let name = s.name;
    let uncovered = |why: String| {
        format!("{name}: extremes are not covered: {why}. Plan for a colder night than its coldest hour.")
    };
    let few = |winters: usize| uncovered(extremes::few(winters));
    match (s.winters, year.kind) {
        (Some(winters), _) if winters.extremes.is_some() => Some(format!(
            "{name}: a record of {} winters; what is of one year is {}, its latest complete one.",
            winters.minima.len(),
            kind(year)
        )),
        (Some(winters), _) => Some(few(winters.minima.len())),
        (None, YearKind::Typical) => Some(uncovered("a typical year leaves out the coldest winters".into())),
        (None, YearKind::Actual(_) | YearKind::FromJuly(_)) => Some(uncovered(extremes::ONE_YEAR.into())),
        (None, YearKind::Synthetic { .. }) => None,
    }
}

fn foot(summed: &[Summed<'_>]) -> String {
    let hash = |s: &Summed<'_>| {
        let hash = match s.weather {
            Weather::Year(year) => &year.sha256,
            Weather::Bins(bins) => &bins.sha256,
            Weather::Record(record) => &record.sha256,
        };
        format!("{} {}", s.name, hash.get(..12).unwrap_or(hash))
    };
    let mut parts = vec![format!("winterledger {}", env!("CARGO_PKG_VERSION"))];
    parts.extend(summed.iter().map(hash));
    parts.extend(summed.iter().find_map(Summed::extremes).map(extremes::seed));
    parts.join("; ")
}

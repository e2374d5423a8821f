//! Columns of cells, hour by hour, into finished columns without gaps, a year or a record.
//!
//! Fills gaps of the dry-bulb; any other column with a missing hour is left out whole. Must never
//! know a layout. Start at [`Hours`].

use super::cells::{Column, Field};
use super::columns::OutdoorColumns;
use super::findings::Findings;
use super::gaps::{self, Filled, Gap};
use super::lines::Row;
use super::options::GapRule;
use super::reading::{Reading, Remark};
use super::record::WeatherRecord;
use super::site::Site;
use super::stamps::{LEAP_HOURS, hour_words};
use super::year::{OutdoorYear, YearKind};
use crate::problem::{Problem, Problems};
use crate::series::Hourly;
use chrono::NaiveDate;

/// So long a gap, four weeks, is a file that lacks and no sensor that failed: nobody is told to fill it.
const LONG_MISSING: usize = 28 * 24;
/// So many gaps are told each, the others are counted.
const MOST_GAPS: usize = 4;
const WEEKS_MISSING: &str = "Give the file of the time between too, or leave out what lies on one side of the gap; \
     else take another year or place";
const TOO_MANY_MISSING: &str = "More than 5 % of the year is missing, which no rule for gaps fills: put in values from a \
     station near by, or take another year or place";
const MOSTLY_MISSING: &str = "Most hours are missing: give every hour. Rows that come once a day or every few hours are no \
     weather by the hour, and no rule for gaps makes it of them";
const HOURS_MISSING: &str = "Take another year or place, put in values from a station near by, or write weather_gaps \
     = \"neighbouring_days\" into [site] of the job; `weather` takes --gaps neighbouring_days";

/// The values read so far, by column, and the line of each hour.
#[derive(Debug)]
pub(super) struct Hours {
    /// Each column and its values.
    pub(super) columns: Vec<(Column, Vec<Option<f64>>)>,
    /// The line of each row; 0 for an hour without a row.
    pub(super) lines: Vec<u32>,
    /// Which file gives which hours, in order, where there are several.
    pub(super) files: Vec<Within>,
    /// The first hour of each 29 February without a row, which is filled whatever the rule for gaps.
    pub(super) leap_days: Vec<usize>,
}

/// A file and the hours that it gives, the first and the last.
#[derive(Debug)]
pub(super) struct Within {
    pub(super) file: String,
    pub(super) first: i64,
    pub(super) last: i64,
}

/// All columns, whole, and which hours of the dry-bulb were filled.
struct Finished {
    columns: OutdoorColumns,
    filled: Vec<bool>,
}

impl Hours {
    /// No hours yet, of these columns.
    pub(super) fn new(columns: Vec<Column>) -> Self {
        let columns = columns.into_iter().map(|c| (c, Vec::with_capacity(LEAP_HOURS))).collect();
        Self { columns, lines: Vec::with_capacity(LEAP_HOURS), files: Vec::new(), leap_days: Vec::new() }
    }

    /// Takes one row.
    pub(super) fn push(&mut self, row: &Row<'_>, findings: &mut Findings) {
        // Files are too small for more lines than that.
        self.lines.push(u32::try_from(row.line).unwrap_or(u32::MAX));
        for (column, values) in &mut self.columns {
            values.push(column.value(row, findings));
        }
    }

    /// The same with so many rows taken together as one hour, of the means of what is there.
    pub(super) fn averaged(mut self, an_hour: usize, reading: &mut Reading) -> Self {
        if an_hour > 1 {
            reading.rows = self.lines.len();
            reading.remarks.push(Remark::Averaged { rows_an_hour: an_hour });
            self.lines = self.lines.iter().step_by(an_hour).copied().collect();
            for (_, values) in &mut self.columns {
                *values = values.chunks(an_hour).map(mean).collect();
            }
        }
        self
    }

    /// The year of all rows, which stand for the hours from 1 January on.
    ///
    /// # Errors
    /// What was found before, and gaps of the dry-bulb that are too long to fill.
    pub(super) fn into_year(
        self,
        site: Site,
        kind: YearKind,
        sha256: String,
        mut reading: Reading,
        (rule, mut findings): (GapRule, Findings),
    ) -> Result<OutdoorYear, Problems> {
        findings.check()?;
        if reading.rows == 0 {
            reading.rows = self.lines.len();
        }
        let leap = self.lines.len() == LEAP_HOURS;
        let words = move |hour: usize| {
            hour_words(leap, hour).map_or_else(String::new, |(day, h)| format!("{day} {h:02}:00"))
        };
        let Finished { columns, filled } = self.finish(true, rule, &words, &mut reading, findings)?;
        Ok(OutdoorYear {
            place: site.place,
            kind,
            latitude: site.latitude,
            longitude: site.longitude,
            elevation_m: site.elevation_m,
            utc_offset_h: site.utc_offset_h,
            zone: site.zone,
            columns,
            filled_hours: reading.filled_hours,
            filled: if reading.filled_hours > 0 { filled } else { Vec::new() },
            sha256,
            reading: Some(reading),
        })
    }

    /// The record of all hours from `first_day` on; `ring` where they are whole years.
    ///
    /// # Errors
    /// As [`Self::into_year`].
    pub(super) fn into_record(
        self,
        site: Site,
        (first_day, ring): (NaiveDate, bool),
        sha256: String,
        mut reading: Reading,
        (rule, mut findings): (GapRule, Findings),
    ) -> Result<WeatherRecord, Problems> {
        findings.check()?;
        let midnight = first_day.and_time(chrono::NaiveTime::MIN);
        let words = move |hour: usize| {
            let time = chrono::Duration::try_hours(hour as i64).and_then(|h| midnight.checked_add_signed(h));
            time.map_or_else(String::new, |time| time.format("%-d %B %Y %H:00").to_string())
        };
        let Finished { columns, filled } = self.finish(ring, rule, &words, &mut reading, findings)?;
        Ok(WeatherRecord {
            place: site.place,
            latitude: site.latitude,
            longitude: site.longitude,
            elevation_m: site.elevation_m,
            utc_offset_h: site.utc_offset_h,
            zone: site.zone,
            first_day,
            columns,
            filled_hours: reading.filled_hours,
            sha256,
            reading,
            filled,
        })
    }

    fn finish(
        mut self,
        ring: bool,
        rule: GapRule,
        words: &dyn Fn(usize) -> String,
        reading: &mut Reading,
        mut findings: Findings,
    ) -> Result<Finished, Problems> {
        let (title, dry_bulb) = self.take(Field::DryBulb).unwrap_or_default();
        self.fill_leap_days();
        let Filled { values, by_line, by_days } = match gaps::fill(&dry_bulb, ring, rule, &self.leap_days) {
            Ok(filled) => filled,
            Err(gaps) => {
                let help = way_out(&dry_bulb);
                for (n, gap) in gaps.iter().take(MOST_GAPS).enumerate() {
                    let problem = self.long_gap(*gap, words, help).at_key(title.clone());
                    let more = if n + 1 == MOST_GAPS { gaps.len() - MOST_GAPS } else { 0 };
                    findings.add(Problem { more, ..problem });
                }
                return Err(findings.check().err().unwrap_or_default());
            }
        };
        let Some(dry_bulb_c) = Hourly::new(values) else {
            return Err(findings.end(Problem::new("the hours are no whole number of days")));
        };
        reading.filled_hours = by_line + by_days;
        reading.hours_taken = dry_bulb.len() - reading.filled_hours;
        reading.columns_taken.push(title);
        let leap = self.leap_days.len();
        if leap > 0 {
            reading.remarks.push(Remark::NoLeapDay { days: leap });
        }
        if by_days > 24 * leap {
            reading.remarks.push(Remark::FilledByDays { hours: by_days - 24 * leap });
        }
        let columns = OutdoorColumns {
            dry_bulb_c,
            dew_point_c: self.whole(Field::DewPoint, reading, words),
            relative_humidity: self.whole(Field::Humidity, reading, words),
            pressure_pa: self.whole(Field::Pressure, reading, words),
            global_w_m2: self.whole(Field::Global, reading, words),
            direct_w_m2: self.whole(Field::Direct, reading, words),
            diffuse_w_m2: self.whole(Field::Diffuse, reading, words),
            wind_m_s: self.whole(Field::Wind, reading, words),
        };
        Ok(Finished { columns, filled: dry_bulb.iter().map(Option::is_none).collect() })
    }

    /// What stands beside the dry-bulb, from the same hour of the days before and after.
    fn fill_leap_days(&mut self) {
        for (_, values) in &mut self.columns {
            for hour in self.leap_days.iter().flat_map(|first| *first..first + 24) {
                let at = |hour: Option<usize>| hour.and_then(|hour| values.get(hour)).copied().flatten();
                let (before, after) = (at(hour.checked_sub(24)), at(hour.checked_add(24)));
                if let (Some(value), Some(before), Some(after)) = (values.get_mut(hour), before, after) {
                    *value = Some((before + after) / 2.0);
                }
            }
        }
    }

    fn take(&mut self, field: Field) -> Option<(String, Vec<Option<f64>>)> {
        let position = self.columns.iter().position(|(column, _)| column.field == field)?;
        let (column, values) = self.columns.swap_remove(position);
        Some((column.title, values))
    }

    /// The column, if no hour of it is missing.
    fn whole(
        &mut self,
        field: Field,
        reading: &mut Reading,
        words: &dyn Fn(usize) -> String,
    ) -> Option<Hourly<f64>> {
        let (column, values) = self.take(field)?;
        let missing = values.iter().filter(|value| value.is_none()).count();
        if missing > 0 {
            let first = values.iter().position(Option::is_none).map_or_else(String::new, words);
            reading.remarks.push(Remark::ColumnDropped { column, missing, first });
            return None;
        }
        reading.columns_taken.push(column);
        Hourly::new(values.into_iter().flatten().collect())
    }

    fn long_gap(&self, gap: Gap, words: &dyn Fn(usize) -> String, help: &str) -> Problem {
        let n = self.lines.len().max(1);
        let last = gap.start + gap.hours.saturating_sub(1);
        let (file, between) = self.place(gap.start as i64, last as i64);
        let what = format!(
            "no dry-bulb temperature for {} hours, from the hour that begins {} to the one that begins {}{between}",
            gap.hours,
            words(gap.start % n),
            words(last % n)
        );
        let problem = Problem { file, ..Problem::new(what) }
            .allowed(format!(
                "gaps of up to {} hours, which are filled by a straight line",
                gaps::LONGEST_FILLED
            ))
            .help(if gap.hours >= LONG_MISSING { WEEKS_MISSING } else { help });
        match self.lines.get(gap.start) {
            Some(line) if *line > 0 => problem.at_line(*line as usize),
            _ => problem,
        }
    }
}

impl Hours {
    /// The file in which hours are missing, and words where they are missing between two.
    fn place(&self, first: i64, last: i64) -> (Option<String>, String) {
        let before = self.files.iter().rfind(|file| file.first <= first);
        let next = self.files.iter().find(|file| file.first > first);
        let between = match (before, next) {
            (Some(file), Some(next)) if last > file.last => {
                format!(", between the end of this file and {}", next.file)
            }
            _ => String::new(),
        };
        (before.or(next).map(|file| file.file.clone()), between)
    }
}

/// What to do about long gaps, such that it works once it is done.
fn way_out(dry_bulb: &[Option<f64>]) -> &'static str {
    let (missing, all) = (dry_bulb.iter().filter(|value| value.is_none()).count(), dry_bulb.len());
    let one_year = all <= LEAP_HOURS;
    match missing as f64 / all.max(1) as f64 {
        share if share > 0.5 => MOSTLY_MISSING,
        // Of a record another year may be taken.
        share if share > gaps::MOST_MISSING && one_year => TOO_MANY_MISSING,
        _ => HOURS_MISSING,
    }
}

/// The mean of what is there.
fn mean(values: &[Option<f64>]) -> Option<f64> {
    let (sum, count) = values.iter().flatten().fold((0.0, 0), |(sum, count), value| (sum + value, count + 1));
    (count > 0).then(|| sum / f64::from(count))
}

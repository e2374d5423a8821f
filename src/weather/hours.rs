//! Columns of cells, hour by hour, into a finished [`OutdoorYear`].
//!
//! Fills short gaps of the dry-bulb; any other column with a missing hour is left out whole. Must
//! never know a layout. Start at [`Hours`].

use super::cells::{Column, Field};
use super::findings::Findings;
use super::gaps::{self, Gap};
use super::stamps::{LEAP_HOURS, hour_words};
use super::year::{OutdoorYear, YearKind};
use crate::problem::{Problem, Problems};
use crate::series::Hourly;
use chrono_tz::Tz;
use std::borrow::Cow;

/// What a file says of its place and year.
#[derive(Debug, Clone)]
pub(super) struct Site {
    /// The place's name.
    pub(super) place: String,
    /// Composite or actual.
    pub(super) kind: YearKind,
    /// Degrees north.
    pub(super) latitude: Option<f64>,
    /// Degrees east.
    pub(super) longitude: Option<f64>,
    /// Height above sea level, m.
    pub(super) elevation_m: Option<f64>,
    /// Standard time less UTC, hours.
    pub(super) utc_offset_h: Option<f64>,
    /// The time zone, where the file names one.
    pub(super) zone: Option<Tz>,
}

/// Allowed latitudes, degrees north.
pub(super) const LATITUDE: (f64, f64) = (-90.0, 90.0);
/// Allowed longitudes, degrees east.
pub(super) const LONGITUDE: (f64, f64) = (-180.0, 180.0);
/// Allowed heights, m: from the lowest shore to the highest summit.
pub(super) const ELEVATION: (f64, f64) = (-450.0, 8900.0);
/// Allowed offsets of standard time from UTC, hours.
pub(super) const UTC_OFFSET: (f64, f64) = (-12.0, 14.0);

/// The values read so far, by column, and the line of each hour.
#[derive(Debug)]
pub(super) struct Hours {
    columns: Vec<(Column, Vec<Option<f64>>)>,
    lines: Vec<usize>,
}

impl Hours {
    /// No hours yet, of these columns.
    pub(super) fn new(columns: Vec<Column>) -> Self {
        let columns = columns.into_iter().map(|c| (c, Vec::with_capacity(LEAP_HOURS))).collect();
        Self { columns, lines: Vec::with_capacity(LEAP_HOURS) }
    }

    /// Takes one row.
    pub(super) fn push(&mut self, line: usize, cells: &[Cow<'_, str>], findings: &mut Findings) {
        self.lines.push(line);
        for (column, values) in &mut self.columns {
            let cell = cells.get(column.position).map(AsRef::as_ref).unwrap_or_default();
            values.push(column.value(cell, line, findings));
        }
    }

    /// The year of all rows.
    ///
    /// # Errors
    /// What was found before, and gaps of the dry-bulb that are too long to fill.
    pub(super) fn into_year(
        mut self,
        site: Site,
        sha256: String,
        mut findings: Findings,
    ) -> Result<OutdoorYear, Problems> {
        findings.check()?;
        let (title, dry_bulb) = self.take(Field::DryBulb).unwrap_or_default();
        let (filled, filled_hours) = match gaps::fill(&dry_bulb) {
            Ok(filled) => filled,
            Err(gaps) => {
                gaps.iter().for_each(|gap| findings.add(self.long_gap(*gap).at_key(title.clone())));
                return Err(findings.check().err().unwrap_or_default());
            }
        };
        let Some(dry_bulb_c) = Hourly::new(filled) else {
            return Err(findings.end(Problem::new("the hours are no whole number of days")));
        };
        Ok(OutdoorYear {
            place: site.place,
            kind: site.kind,
            latitude: site.latitude,
            longitude: site.longitude,
            elevation_m: site.elevation_m,
            utc_offset_h: site.utc_offset_h,
            zone: site.zone,
            dry_bulb_c,
            dew_point_c: self.whole(Field::DewPoint),
            relative_humidity: self.whole(Field::Humidity),
            pressure_pa: self.whole(Field::Pressure),
            global_w_m2: self.whole(Field::Global),
            direct_w_m2: self.whole(Field::Direct),
            diffuse_w_m2: self.whole(Field::Diffuse),
            wind_m_s: self.whole(Field::Wind),
            filled_hours,
            sha256,
        })
    }

    fn take(&mut self, field: Field) -> Option<(String, Vec<Option<f64>>)> {
        let position = self.columns.iter().position(|(column, _)| column.field == field)?;
        let (column, values) = self.columns.swap_remove(position);
        Some((column.title, values))
    }

    /// The column, if no hour of it is missing.
    fn whole(&mut self, field: Field) -> Option<Hourly<f64>> {
        let (_, values) = self.take(field)?;
        Hourly::new(values.into_iter().collect::<Option<Vec<f64>>>()?)
    }

    fn long_gap(&self, gap: Gap) -> Problem {
        let n = self.lines.len();
        let leap = n == LEAP_HOURS;
        let words = |hour: usize| {
            hour_words(leap, hour % n.max(1)).map_or_else(String::new, |(day, h)| format!("{day} {h:02}:00"))
        };
        let last = gap.start + gap.hours.saturating_sub(1);
        let what = format!(
            "no dry-bulb temperature for {} hours, from the hour that begins {} to the one that begins {}",
            gap.hours,
            words(gap.start),
            words(last)
        );
        let problem = Problem::new(what)
            .allowed(format!("gaps of up to {} hours, which are filled by a straight line", gaps::LONGEST_FILLED))
            .help("Take another year or place, or put in values from a station near by");
        match self.lines.get(gap.start) {
            Some(line) => problem.at_line(*line),
            None => problem,
        }
    }
}

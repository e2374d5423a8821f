//! The bytes of any weather file into [`Weather`]: text first, then its layout, then the reader.
//!
//! Opens nothing itself; whoever calls hands in the bytes and the name for messages. Start at
//! [`read`].

use super::comments::is_comment;
use super::dated::Dated;
use super::held::Weather;
use super::joined::join;
use super::lines::filled_lines;
use super::options::{Layout, ReadOptions};
use super::reading::Remark;
use super::recognise::{below_other_lines, recognise};
use super::span;
use super::text::{Text, Whole};
use super::unknown::unknown;
use super::{bin_csv, dated_csv, epw, isd_lite, nsrdb, plain_csv, pvgis, tmy2, tmy3};
use crate::problem::{Problem, Problems};
use std::io::Read;

/// Reads a weather file of any known layout, gzipped or not; `name` stands in messages.
///
/// TMY3 and EPW files of 8,760 rows are typical years whatever years their months name, and lie on
/// the calendar of 2023. Missing codes are missing. Gaps of up to six hours in the dry-bulb are
/// filled by straight lines and counted in `filled_hours`; another column with a missing hour is
/// `None` as a whole.
///
/// ```
/// use winterledger::weather::{Weather, read};
/// let file = "outdoor_degF,hours\n32,10\n50,20\n";
/// let Ok(Weather::Bins(table)) = read("bins.csv", file.as_bytes()) else { panic!() };
/// assert_eq!(table.bins[0].temperature_c, 10.0); // warm to cold
/// ```
///
/// # Errors
/// All that is wrong with the file: too large, binary, of no known layout, wrong columns, rows
/// missing or out of order, no numbers, numbers out of range (dry-bulb −90 to 60 °C), long gaps.
pub fn read(name: &str, bytes: impl Read) -> Result<Weather, Problems> {
    read_with(name, bytes, &ReadOptions::default())
}

/// Reads a weather file of which the layout is told.
///
/// # Errors
/// As [`read`], save that the layout is not looked for.
pub fn read_as(name: &str, bytes: impl Read, layout: Layout) -> Result<Weather, Problems> {
    read_with(name, bytes, &ReadOptions { layout: Some(layout), ..ReadOptions::default() })
}

/// Reads a weather file with what is said beside it.
///
/// # Errors
/// As [`read`]; the options may allow what is else refused.
pub fn read_with(name: &str, bytes: impl Read, options: &ReadOptions) -> Result<Weather, Problems> {
    read_many(vec![(name.to_owned(), bytes)], options)
}

/// Reads one weather file, or several of one place as one record; each with its name for messages.
///
/// Several must be of a layout whose rows carry their date; their order does not matter. What has
/// more than a year is a record, see [`WeatherRecord`](super::WeatherRecord). Hours in UTC are put
/// into the place's standard time; what whole years lack at one end then is taken from the other.
///
/// # Errors
/// All that is wrong with any of the files, and files that do not go together.
pub fn read_many<R: Read>(files: Vec<(String, R)>, options: &ReadOptions) -> Result<Weather, Problems> {
    let one = files.len() == 1;
    let mut dated = Vec::new();
    let mut problems = Problems::new();
    for (name, bytes) in files {
        match read_one(&name, bytes, options) {
            Ok(Part::Dated(part)) => dated.push(*part),
            Ok(Part::Whole(weather)) if one => return Ok(weather),
            Ok(Part::Whole(_)) => problems.push(not_joined(&name)),
            Err(found) => problems.extend(found),
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    span::into_weather(join(dated)?, options)
}

/// One file, read: rows with dates, which may be joined to others, or all there is.
enum Part {
    Dated(Box<Dated>),
    Whole(Weather),
}

impl Part {
    /// The same with a remark; bins have none.
    fn with(mut self, remark: Option<Remark>) -> Self {
        let reading = match &mut self {
            Self::Dated(part) => Some(&mut part.reading),
            Self::Whole(Weather::Year(year)) => year.reading.as_mut(),
            Self::Whole(_) => None,
        };
        if let Some(reading) = reading {
            reading.remarks.extend(remark);
        }
        self
    }
}

fn read_one(name: &str, bytes: impl Read, options: &ReadOptions) -> Result<Part, Problems> {
    let told = |problem: Problem| vec![problem.in_file(name)];
    let mut text = Text::open(bytes).map_err(told)?;
    let mut seen = recognise(&text.ahead());
    let mut above = None;
    if seen.is_none()
        && let Some((lines, layout)) = below_other_lines(&text.ahead())
    {
        let first = filled_lines(&text.ahead())
            .find(|(_, line)| !is_comment(line))
            .map(|(_, line)| line.trim().to_owned());
        text.blank(lines, is_comment);
        (seen, above) = (Some(layout), first.map(|first| Remark::LinesAbove { lines, first }));
    }
    let Some(layout) = options.layout.or(seen) else {
        return Err(vec![unknown(name, &text.ahead())]);
    };
    let part = read_as_layout(name, text, layout, options);
    part.map(|part| part.with(above)).map_err(|mut problems| {
        problems.extend(seen.filter(|seen| *seen != layout).map(|seen| other_layout(name, layout, seen)));
        problems
    })
}

fn read_as_layout(
    name: &str,
    text: Text<'_>,
    layout: Layout,
    options: &ReadOptions,
) -> Result<Part, Problems> {
    let dated = match layout {
        Layout::IsdLite => isd_lite::read(name, text),
        Layout::Nsrdb => nsrdb::read(name, text),
        Layout::Pvgis => pvgis::read(name, text),
        Layout::DatedCsv => dated_csv::read(name, text, options),
        one_year => {
            let text = text.whole().map_err(|problem| vec![problem.in_file(name)])?;
            return whole(name, text, one_year, options);
        }
    };
    dated.map(|dated| Part::Dated(Box::new(dated)))
}

/// The layouts that hold one year or less are small enough to be kept while they are read.
fn whole(name: &str, text: Whole, layout: Layout, options: &ReadOptions) -> Result<Part, Problems> {
    let year = match layout {
        Layout::BinCsv => return bin_csv::read(name, text).map(|bins| Part::Whole(Weather::Bins(bins))),
        Layout::Tmy3 => tmy3::read(name, text, options),
        Layout::Tmy2 => tmy2::read(name, text, options),
        Layout::Epw => epw::read(name, text, options),
        _ => plain_csv::read(name, text, options),
    };
    year.map(|year| Part::Whole(Weather::Year(Box::new(year))))
}

/// A layout that was asked for by a slip.
fn other_layout(name: &str, forced: Layout, seen: Layout) -> Problem {
    let what = format!("the content looks like {}, not like {}", seen.name(), forced.name());
    let help =
        "Leave the layout out (weather_format in the job, --format of `weather`), and the content tells it";
    Problem::new(what).in_file(name).help(help)
}

fn not_joined(name: &str) -> Problem {
    Problem::new("its rows carry no dates, so it cannot be one of several files")
        .in_file(name)
        .allowed("ISD-Lite, NSRDB, PVGIS, or CSV with a date in each row")
        .help("Name this file alone")
}

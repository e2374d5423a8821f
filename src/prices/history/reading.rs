//! The text of a price history into its prices, or every problem in it.
//!
//! Two columns with a header: `date` and the money a unit, as in `date,$/gal`; lines that begin with `#`
//! are remarks. Dates are days (`2026-01-12`), or months (`2026-01`) whose prices are then means of the
//! month. Start at [`read`].

use super::slips::refused;
use super::{PriceHistory, PricePoint};
use crate::problem::{Problem, Problems};
use chrono::{Datelike, NaiveDate};

/// More prices than this are no history of winters.
const MOST_POINTS: usize = 50_000;

/// A price of an earlier year is a slip, such as 04 for 2004.
const EARLIEST: i32 = 1900;

/// Reads a history; `file` is its name for messages.
///
/// # Errors
/// A header without `date` and a unit of price, dates that cannot be read or do not rise, prices that are
/// not above 0; a line each.
pub fn read(file: &str, text: &str) -> Result<PriceHistory, Problems> {
    let mut reader =
        csv::ReaderBuilder::new().comment(Some(b'#')).trim(csv::Trim::All).from_reader(text.as_bytes());
    let told = |problem: Problem| problem.in_file(file);
    let header = reader.headers().map_err(|e| vec![told(Problem::new(format!("it cannot be read: {e}")))])?;
    let unit = match (header.get(0), header.get(1), header.len()) {
        (Some("date"), Some(unit), 2) if unit.contains('/') => unit.to_owned(),
        _ => {
            let what = "the header of a price history is date and the unit of the price";
            return Err(vec![told(Problem::new(what).at_line(1).help("Write date,$/gal on the first line"))]);
        }
    };
    let (mut found, mut problems) = (Found::default(), Vec::new());
    for record in reader.records() {
        let record = record.map_err(|e| vec![told(Problem::new(format!("it cannot be read: {e}")))])?;
        let line = record.position().map_or(0, |position| position.line() as usize);
        let cell = |place: usize| record.get(place).unwrap_or_default();
        if let Err(problem) = found.take(cell(0), cell(1)) {
            problems.push(told(problem.at_line(line)));
        } else {
            found.lines.push(line);
        }
        if found.points.len() > MOST_POINTS || problems.len() > 20 {
            break;
        }
    }
    if found.points.len() > MOST_POINTS {
        let what = format!("the history holds more than {MOST_POINTS} prices");
        problems.push(told(Problem::new(what).help("Give one price a week")));
    }
    if found.points.is_empty() && problems.is_empty() {
        problems.push(told(Problem::new("the history holds no price")));
    }
    problems.extend(refused(&found.points, &found.lines).into_iter().take(20).map(told));
    if !problems.is_empty() {
        return Err(problems);
    }
    let rounded_to = 0.1_f64.powi(found.decimals);
    Ok(PriceHistory { unit, points: found.points, rounded_to, monthly_means: found.months == Some(true) })
}

/// What has been read so far.
#[derive(Default)]
struct Found {
    points: Vec<PricePoint>,
    /// The line of each.
    lines: Vec<usize>,
    /// The most that a price was written with.
    decimals: i32,
    /// Whether dates are months; nothing before the first.
    months: Option<bool>,
}

impl Found {
    fn take(&mut self, date: &str, price: &str) -> Result<(), Problem> {
        let day = NaiveDate::parse_from_str(date, "%Y-%m-%d").ok();
        let month = || NaiveDate::parse_from_str(&format!("{date}-01"), "%Y-%m-%d").ok();
        let Some((read, is_month)) = day.map(|day| (day, false)).or_else(|| Some((month()?, true))) else {
            let what = format!("'{date}' is no date");
            let help = "Write it as in 2026-01-12, or 2026-01 for the mean of a month";
            return Err(Problem::new(what).allowed("year-month-day, or year-month").help(help));
        };
        if read.year() < EARLIEST {
            let what = format!("{date} lies before {EARLIEST}");
            return Err(Problem::new(what).help("Write years in full, such as 2004"));
        }
        if *self.months.get_or_insert(is_month) != is_month {
            let what = format!("{date} is written otherwise than the dates before it");
            return Err(Problem::new(what).help("Give days in all lines, or months in all lines"));
        }
        if let Some(last) = self.points.last().map(|point| point.date).filter(|last| read <= *last) {
            let what = format!("{read} does not come after {last} on the line before");
            return Err(Problem::new(what).help("Put the prices in the order of their dates, each once"));
        }
        let value = price.parse::<f64>().ok().filter(|price| price.is_finite() && *price > 0.0);
        let Some(value) = value else {
            let what = format!("'{price}' is no price");
            return Err(Problem::new(what)
                .allowed("more than 0")
                .help("Write a plain number, such as 2.489"));
        };
        let places = price.split_once('.').map_or(0, |(_, decimals)| decimals.len().min(9));
        self.decimals = self.decimals.max(places as i32);
        self.points.push(PricePoint { date: read, price: value });
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_history_is_read_and_every_fault_has_its_line() {
        let history = read("h", "# invented\ndate,$/gal\n2020-10-05,2.10\n2020-10-12, 2.125\n").unwrap();
        assert_eq!((history.unit.as_str(), history.points.len()), ("$/gal", 2));
        assert!((history.rounded_to - 0.001).abs() < 1e-15);
        let text = "date,$/gal\n2020-10-05,2.10\n2020-10-05,2.12\nsoon,2\n2020-11-02,-1\n";
        let problems = read("h", text).unwrap_err();
        assert_eq!(problems.iter().map(|p| p.line).collect::<Vec<_>>(), [Some(3), Some(4), Some(5)]);
        assert!(read("h", "day,price\n2020-10-05,2.10\n").is_err());
        assert!(read("h", "date,$/gal\n").is_err());
        let months = read("h", "date,$/gal\n2020-10,2.10\n2020-11,2.2\n").unwrap();
        assert!(months.monthly_means && months.points.len() == 2);
        assert!(read("h", "date,$/gal\n2020-10,2.10\n2020-11-02,2.2\n").is_err());
    }
}

//! The text of a price history into its prices, or every problem in it.
//!
//! Two columns with a header: `date` and the money a unit, as in `date,$/gal`; lines that begin with `#`
//! are remarks. Start at [`read`].

use super::{PriceHistory, PricePoint};
use crate::problem::{Problem, Problems};
use chrono::NaiveDate;

/// More prices than this are no history of winters.
const MOST_POINTS: usize = 50_000;

/// Reads a history; `file` is its name for messages.
///
/// # Errors
/// A header without `date` and a unit of price, dates that cannot be read or do not rise, prices that are
/// not above 0; a line each.
pub fn read(file: &str, text: &str, monthly_means: bool) -> Result<PriceHistory, Problems> {
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
    let (mut points, mut problems, mut decimals) = (Vec::<PricePoint>::new(), Vec::new(), 0);
    for record in reader.records() {
        let record = match record {
            Ok(record) => record,
            Err(e) => return Err(vec![told(Problem::new(format!("it cannot be read: {e}")))]),
        };
        let line = record.position().map_or(0, |position| position.line() as usize);
        let last = points.last().map(|point| point.date);
        match point(record.get(0).unwrap_or_default(), record.get(1).unwrap_or_default(), last) {
            Ok((point, places)) => {
                points.push(point);
                decimals = decimals.max(places);
            }
            Err(problem) => problems.push(told(problem.at_line(line))),
        }
        if points.len() > MOST_POINTS || problems.len() > 20 {
            break;
        }
    }
    if points.is_empty() && problems.is_empty() {
        problems.push(told(Problem::new("the history holds no price")));
    }
    let rounded_to = 0.1_f64.powi(decimals);
    if problems.is_empty() {
        Ok(PriceHistory { unit, points, rounded_to, monthly_means })
    } else {
        Err(problems)
    }
}

/// A price and how many decimals it was written with.
fn point(date: &str, price: &str, last: Option<NaiveDate>) -> Result<(PricePoint, i32), Problem> {
    let read = NaiveDate::parse_from_str(date, "%Y-%m-%d").ok();
    let Some(read) = read else {
        let what = format!("'{date}' is no date");
        return Err(Problem::new(what).allowed("year-month-day").help("Write it as in 2026-01-12"));
    };
    if let Some(last) = last.filter(|last| read <= *last) {
        let what = format!("{read} does not come after {last} on the line before");
        return Err(Problem::new(what).help("Put the prices in the order of their dates, one a day at most"));
    }
    match price.parse::<f64>().ok().filter(|price| price.is_finite() && *price > 0.0) {
        Some(value) => {
            let places = price.split_once('.').map_or(0, |(_, decimals)| decimals.len().min(9));
            Ok((PricePoint { date: read, price: value }, places as i32))
        }
        None => {
            let what = format!("'{price}' is no price");
            Err(Problem::new(what).allowed("more than 0").help("Write a plain number, such as 2.489"))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_history_is_read_and_every_fault_has_its_line() {
        let history =
            read("h", "# invented\ndate,$/gal\n2020-10-05,2.10\n2020-10-12, 2.125\n", false).unwrap();
        assert_eq!((history.unit.as_str(), history.points.len()), ("$/gal", 2));
        assert!((history.rounded_to - 0.001).abs() < 1e-15);
        let text = "date,$/gal\n2020-10-05,2.10\n2020-10-05,2.12\nsoon,2\n2020-11-02,-1\n";
        let problems = read("h", text, false).unwrap_err();
        assert_eq!(problems.iter().map(|p| p.line).collect::<Vec<_>>(), [Some(3), Some(4), Some(5)]);
        assert!(read("h", "day,price\n2020-10-05,2.10\n", false).is_err());
        assert!(read("h", "date,$/gal\n", false).is_err());
    }
}

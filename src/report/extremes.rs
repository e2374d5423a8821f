//! How cold it can get: words and a table of the lows that come once in so many years.
//!
//! Start at [`table`].

use super::figures::{Measure, grouped};
use super::model::{Cell, Column, Table};
use crate::comparison::note::Uncovered;
use crate::weather::extremes::{DRAWS, Extremes, LEAST_WINTERS, LEAST_WINTERS_FOR_50, NYearLow};

/// The lows of each record, by its name; nothing without a record.
pub fn table(records: &[(&str, &Extremes)], measure: Measure) -> Option<Table> {
    let (degree, key) = (measure.degree(), measure.degree_key());
    let number =
        |head: &str, name: &str| Column::numbers(format!("{head}, {degree}"), format!("{name}_{key}"));
    let row = |name: &str, winters: usize, low: &NYearLow| {
        let t = |c: f64| Cell::number(measure.temperature(c), 1);
        vec![
            Cell::text(name),
            Cell::number(winters as f64, 0),
            Cell::number(f64::from(low.years), 0),
            t(low.low_c),
            t(low.interval_c.0),
            t(low.interval_c.1),
            t(low.l_moments_c),
            t(low.maximum_likelihood_c),
        ]
    };
    let rows: Vec<_> = records
        .iter()
        .flat_map(|(name, extremes)| extremes.lows.iter().map(|low| row(name, extremes.winters, low)))
        .collect();
    (!rows.is_empty()).then(|| Table {
        name: "n_year_lows".into(),
        heading: "How cold can it get?".into(),
        columns: vec![
            Column::words("Record", "record"),
            Column::numbers("Winters", "winters"),
            Column::numbers("Once in years", "years"),
            number("Low", "low"),
            number("90 % from", "low_5_percent"),
            number("90 % to", "low_95_percent"),
            number("By L-moments", "l_moments"),
            number("By likelihood", "maximum_likelihood"),
        ],
        rows,
        remark: Some(format!(
            "The coldest hour of each winter, Gumbel\u{2019}s distribution fitted by moments; of {} records of as \
             many winters drawn from it, nine in ten give a low from \u{201c}90 % from\u{201d} to \u{201c}90 % \
             to\u{201d}. {}{}What the climate will be is another matter.",
            grouped(DRAWS as f64, 0),
            if records.iter().any(|(_, e)| e.lows.iter().any(|low| low.methods_differ)) {
                "The methods lie more than 1 K apart: take none of them to the degree. "
            } else {
                ""
            },
            if records.iter().any(|(_, e)| e.winters < LEAST_WINTERS_FOR_50) {
                format!("No 50-year low from fewer than {LEAST_WINTERS_FOR_50} winters. ")
            } else {
                String::new()
            }
        )),
    })
}

/// Why the cold to plan for is not told.
pub fn not_covered(why: Uncovered) -> String {
    let why = match why {
        Uncovered::TypicalYear => {
            "the weather is a typical year, which leaves out the coldest nights".to_owned()
        }
        Uncovered::Bins => "the weather is hours by temperature only".to_owned(),
        Uncovered::OneYear => ONE_YEAR.to_owned(),
        Uncovered::FewWinters(winters) => few(winters),
    };
    format!("Extremes are not covered: {why}, and the job gives no extreme_low.")
}

/// That one year is too little.
pub const ONE_YEAR: &str = "the weather is one year, and one winter tells no extreme";

/// That the winters are too few.
pub fn few(winters: usize) -> String {
    let noun = if winters == 1 { "winter" } else { "winters" };
    format!("the weather has {winters} whole {noun}, and fewer than {LEAST_WINTERS} tell no extreme")
}

/// The record's low and how sure it is.
pub fn record_low(
    low: &NYearLow,
    (winters, coldest_c): (usize, f64),
    planned: bool,
    measure: Measure,
) -> String {
    let t = |c: f64| measure.temperature_words(c);
    let who = match planned {
        true => "It is the coldest night to plan for, as the job gives no extreme_low.",
        false => "The coldest night to plan for is the job\u{2019}s own extreme_low.",
    };
    let differ = match low.methods_differ {
        true => format!(
            " The methods lie more than {} apart: by L-moments {}, by maximum likelihood {}.",
            measure.pick("1.8 \u{b0}F (1 K)", "1 K"),
            t(low.l_moments_c),
            t(low.maximum_likelihood_c)
        ),
        false => String::new(),
    };
    format!(
        "The {}-year low of the record\u{2019}s {} winters is {}; nine in ten such records would put it \
         between {} and {}. The coldest hour in it is {}.{differ} {who}",
        low.years,
        grouped(winters as f64, 0),
        t(low.low_c),
        t(low.interval_c.0),
        t(low.interval_c.1),
        t(coldest_c)
    )
}

/// The seed in a report's foot.
pub fn seed(extremes: &Extremes) -> String {
    format!("intervals of the lows drawn with seed {}", extremes.seed)
}

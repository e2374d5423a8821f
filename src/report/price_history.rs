//! What a price history says, in tables and sentences; and what it cannot say.
//!
//! Start at [`report`].

use super::figures::{MONTHS, MONTHS_IN_FULL, grouped};
use super::model::{Cell, Column, Report, Table};
use crate::prices::history::examined::{Deciles, Examined, WINTERS};
use crate::prices::history::fit::{Estimate, LEAST_WINTERS, left_out};
use crate::prices::history::slips::odd_points;
use crate::prices::history::spikes::BEYOND;
use chrono::{Datelike, NaiveDate};

/// What was asked, and whether it stands in for what nobody said.
#[derive(Debug, Clone, PartialEq)]
pub struct AskedOf {
    /// The history's name.
    pub name: String,
    /// Yearly rise of prices in general that is taken out; nothing where none was given.
    pub inflation: Option<f64>,
    /// Whether somebody typed the bounds of the half-life.
    pub half_life_typed: bool,
    /// Whether somebody typed how long half of a spike lasts.
    pub spike_half_life_typed: bool,
    /// Of chance.
    pub seed: u64,
    /// Prices that fuels ordinarily have, in the unit of the history; nothing where that is not known.
    pub ordinary: Option<(f64, f64)>,
    /// The summer's price that was typed.
    pub summer: Option<f64>,
}

/// The whole report.
pub fn report(e: &Examined, asked: &AskedOf) -> Report {
    let mut tables = vec![months(e), model(e), ahead(e)];
    tables.extend(spikes(e));
    Report {
        title: format!("Prices of past winters: {}", asked.name),
        about: about(e, asked),
        verdict: verdict(e),
        tipping_price: None,
        tables,
        appendices: Vec::new(),
        notes: notes(e, asked),
        assumptions: assumptions(e, asked),
        cautions: vec![
            "A model of the past is no forecast: a market that changes for good is not in it.".into(),
        ],
        foot: format!("winterledger {}; seed {}", env!("CARGO_PKG_VERSION"), asked.seed),
    }
}

/// A date in words: `30 March 2020`.
pub fn day_words(date: NaiveDate) -> String {
    let month = MONTHS_IN_FULL.get(date.month0() as usize).copied().unwrap_or_default();
    format!("{} {month} {}", date.day(), date.year())
}

fn about(e: &Examined, asked: &AskedOf) -> Vec<String> {
    let points = &e.history.points;
    let (first, last) = (points.first(), points.last());
    let span = first.zip(last).map_or(String::new(), |(first, last)| {
        format!(" from {} to {}", day_words(first.date), day_words(last.date))
    });
    let what = if e.history.monthly_means { "monthly means" } else { "prices" };
    let money = match (asked.inflation, last) {
        (Some(share), Some(last)) => {
            let percent = grouped(100.0 * share, 1);
            format!("Money of {}: {percent} % a year is taken out", day_words(last.date))
        }
        _ => "Money of each day: no rise of prices in general is taken out".into(),
    };
    vec![
        format!("{} {what}{span}, {}; {} winters", points.len(), e.history.unit, e.fit.winters),
        format!("{money}."),
    ]
}

fn percent(value: f64) -> f64 {
    100.0 * value.exp_m1()
}

fn verdict(e: &Examined) -> Vec<String> {
    let unit = &e.history.unit;
    let named = e.fit.season.iter().zip(crate::prices::history::MONTHS).filter_map(|(s, m)| Some(((*s)?, m)));
    let dearest = named.max_by(|a, b| a.0.value.total_cmp(&b.0.value));
    let mut told: Vec<String> = Vec::new();
    told.extend(dearest.map(|(season, month)| {
        let name = MONTHS_IN_FULL.get(month as usize - 1).copied().unwrap_or_default();
        format!(
            "{name} is dearest: {} % above the mean of the winter's months ({} to {} % with 90 %).",
            grouped(percent(season.value), 1),
            grouped(percent(season.low), 1),
            grouped(percent(season.high), 1)
        )
    }));
    told.extend(e.dearest_week_ahead().map(|[low, middle, high]| {
        format!(
            "The dearest week of the winter that could follow: {middle:.2} {unit} in the middle, {low:.2} or less in \
             one of ten, {high:.2} or more in one of ten."
        )
    }));
    told.extend(e.fit.spikes.as_ref().zip(e.open.spike_probability).map(|(found, (low, high))| {
        format!(
            "A spike was found in {} of {} winters: in any one winter the chance is between {} and {} %.",
            found.len(),
            e.fit.watched,
            grouped(100.0 * low, 1),
            grouped(100.0 * high, 1)
        )
    }));
    told
}

fn months(e: &Examined) -> Table {
    let row = |(season, month): (&Option<Estimate>, u32)| {
        let name = MONTHS.get(month as usize - 1).copied().unwrap_or_default();
        let cell = |of: fn(&Estimate) -> f64| Cell::maybe(season.as_ref().map(|s| percent(of(s))), 1);
        let price = season.as_ref().map(|s| (e.fit.level.mean + s.value).exp());
        vec![Cell::text(name), cell(|s| s.value), cell(|s| s.low), cell(|s| s.high), Cell::maybe(price, 3)]
    };
    Table {
        name: "price_season".into(),
        heading: "How do the months of a winter differ?".into(),
        columns: vec![
            Column::words("Month", "month"),
            Column::numbers("Against their mean, %", "percent"),
            Column::numbers("from", "percent_low"),
            Column::numbers("to", "percent_high"),
            Column::numbers(format!("At rest, {}", e.history.unit), "price_at_rest"),
        ],
        rows: e.fit.season.iter().zip(crate::prices::history::MONTHS).map(row).collect(),
        remark: Some(format!(
            "From to: 90 % intervals, the level's own slow ways allowed for. \u{2013}: fewer than {LEAST_WINTERS} \
             winters have the month."
        )),
    }
}

/// What is known of a parameter, in words.
const OF_DATA: &str = "the prices";
const OF_BOOTSTRAP: &str = "prices drawn from the fit, fitted again";

fn model(e: &Examined) -> Table {
    let row = |what: String, value: f64, ends: Option<(f64, f64)>, decimals: usize, from: &str| {
        let end = |end: Option<f64>| Cell::maybe(end, decimals);
        let (low, high) = (ends.map(|ends| ends.0), ends.map(|ends| ends.1));
        vec![Cell::text(what), Cell::number(value, decimals), end(low), end(high), Cell::text(from)]
    };
    let (fit, open, unit) = (&e.fit, &e.open, &e.history.unit);
    let both = |(low, high): (f64, f64)| (low.exp(), high.exp());
    let (low, high) = e.asked.half_life_years;
    let within = format!("{OF_BOOTSTRAP}; bounds asked for: {low} to {high}");
    let volatility = (fit.volatility.low, fit.volatility.high);
    let mut rows = vec![
        row(format!("Price at rest, {unit}"), e.rest(), Some(both(open.mean)), 2, OF_BOOTSTRAP),
        row("Spread at rest, of the logarithm".into(), fit.level.spread, Some(open.spread), 3, OF_BOOTSTRAP),
        row(
            "Half of a departure is gone after, years".into(),
            fit.level.half_life_years,
            Some(open.half_life_years),
            2,
            &within,
        ),
        row(
            "Volatility of the logarithm in a year".into(),
            fit.volatility.value,
            Some(volatility),
            3,
            OF_DATA,
        ),
        row("Last day against rest, factor".into(), fit.last_departure.exp(), None, 2, OF_DATA),
    ];
    if let Some(found) = &fit.spikes {
        let share = 100.0 * found.len() as f64 / fit.watched.max(1) as f64;
        let ends = open.spike_probability.map(|(low, high)| (100.0 * low, 100.0 * high));
        rows.push(row("Winters with a spike, %".into(), share, ends, 1, "their count (Jeffreys)"));
    }
    if let Some(size) = fit.spike_size() {
        rows.push(row(
            "Mean size of a spike, factor".into(),
            size.exp(),
            open.spike_size.map(both),
            2,
            OF_BOOTSTRAP,
        ));
    }
    Table {
        name: "price_model".into(),
        heading: "What else do the prices say?".into(),
        columns: vec![
            Column::words("", "parameter"),
            Column::numbers("Value", "value"),
            Column::numbers("from", "low"),
            Column::numbers("to", "high"),
            Column::words("known from", "known_from"),
        ],
        rows,
        remark: Some("From to: 90 % intervals. \u{2013}: not known.".into()),
    }
}

fn ahead(e: &Examined) -> Table {
    let row = |name: &str, deciles: Deciles| {
        let cells = deciles.map(|price| Cell::number(price, 2));
        std::iter::once(Cell::text(name)).chain(cells).collect::<Vec<_>>()
    };
    let names = crate::prices::history::MONTHS.map(|month| MONTHS.get(month as usize - 1).copied());
    let months = names.iter().flatten().zip(e.months_ahead()).map(|(name, deciles)| row(name, deciles));
    let dearest = e.dearest_week_ahead().map(|deciles| row("dearest week", deciles));
    Table {
        name: "winter_ahead".into(),
        heading: format!("What could the winter after these prices be like, {}?", e.history.unit),
        columns: vec![
            Column::words("Mean of", "mean_of"),
            Column::numbers("P10", "price_p10"),
            Column::numbers("P50", "price_p50"),
            Column::numbers("P90", "price_p90"),
        ],
        rows: months.chain(dearest).collect(),
        remark: Some(format!(
            "{} drawn winters that begin at the last day's level; season, volatility, half-life and spikes are \
             drawn with each, within what is known of them. One in ten lies below P10, nine in ten below P90.",
            grouped(WINTERS as f64, 0)
        )),
    }
}

fn spikes(e: &Examined) -> Option<Table> {
    let found = e.fit.spikes.as_ref().filter(|found| !found.is_empty())?;
    let first = e.history.points.first()?.date;
    let row = |spike: &crate::prices::history::spikes::FoundSpike| {
        let days = chrono::Days::new((spike.years * 365.25).round().max(0.0) as u64);
        let began = first.checked_add_days(days).map_or(String::new(), day_words);
        let winter = format!("{}/{:02}", spike.first_year, (spike.first_year + 1).rem_euclid(100));
        vec![Cell::text(winter), Cell::text(began), Cell::number(spike.size.exp(), 2)]
    };
    Some(Table {
        name: "price_spikes".into(),
        heading: "Which spikes were found?".into(),
        columns: vec![
            Column::words("Winter", "winter"),
            Column::words("First price with it", "first_price_with_it"),
            Column::numbers("Factor at first", "factor"),
        ],
        rows: found.iter().map(row).collect(),
        remark: Some(
            "At most one each winter, December to February; it then fades with its half-life.".into(),
        ),
    })
}

/// A summer's price this many times the winters', or that part of it, is asked about.
const ODD_SUMMER: f64 = 5.0;

/// What can be true but seldom is.
fn questions(e: &Examined, asked: &AskedOf) -> Vec<String> {
    let unit = &e.history.unit;
    let odd = odd_points(&e.history).into_iter().map(|point| {
        let date = day_words(point.date);
        format!(
            "{:.2} {unit} on {date} is over three times off the prices around it: is it right?",
            point.price
        )
    });
    let mut list: Vec<String> = odd.take(10).collect();
    let Some(middle) = e.history.middle() else { return list };
    if let Some((low, high)) = asked.ordinary.filter(|(low, high)| !(*low..=*high).contains(&middle)) {
        list.push(format!(
            "The middle of all prices is {middle:.2} {unit}; fuels ordinarily cost {low:.2} to {high:.2}. Is the unit \
             on the first line right?"
        ));
    }
    let apart = |summer: &f64| !(middle / ODD_SUMMER..=middle * ODD_SUMMER).contains(summer);
    list.extend(asked.summer.filter(apart).map(|summer| {
        format!("The summer's price is {summer:.2} {unit}, that of the winters {middle:.2} in the middle: is it right?")
    }));
    list
}

/// Which winters are not fitted, and why.
fn winters_left_out(e: &Examined) -> Option<String> {
    let name = |place: &usize| {
        let month = crate::prices::history::MONTHS.get(*place)?;
        MONTHS_IN_FULL.get(*month as usize - 1).copied()
    };
    let winter = |(year, lacking): (i32, Vec<usize>)| {
        let months: Vec<&str> = lacking.iter().filter_map(name).collect();
        format!("{year}/{:02} (no prices in {})", (year + 1).rem_euclid(100), months.join(", "))
    };
    let winters: Vec<String> = left_out(&e.history).into_iter().map(winter).collect();
    (!winters.is_empty()).then(|| format!("Winters left out: {}.", winters.join("; ")))
}

/// Where prices hide spikes, that none were found says nothing.
const NO_SPIKES: &str =
    "none are looked for, none are in the drawn winters, and that says nothing of whether there were any";

/// What the prices cannot say.
fn notes(e: &Examined, asked: &AskedOf) -> Vec<String> {
    let mut list = questions(e, asked);
    list.extend(winters_left_out(e));
    let summer = e.history.summer_points();
    let left_out = match summer {
        0 => "There is no price from April to September".to_owned(),
        1 => "One price from April to September is left out".to_owned(),
        many => format!("{many} prices from April to September are left out"),
    };
    list.push(format!(
        "{left_out}: what fuel costs in summer is asked of you, from your supplier's own tickets."
    ));
    list.push(format!(
        "Few winters hardly tell how fast a price comes back: the half-life lies where you say ({} to {} years) and \
         drawn winters take any of it.",
        e.asked.half_life_years.0, e.asked.half_life_years.1
    ));
    match e.fit.spikes {
        None if e.history.monthly_means => list.push(format!("Monthly means hide spikes: {NO_SPIKES}.")),
        None => {
            list.push(format!("Spikes cannot be found from about one price a month: {NO_SPIKES}."));
            list.push(
                "Each price is taken as that of its day. If they are averages of months, write the dates as \
                 year and month, as in 2004-10: averages move less than the price of a day, and are fitted as such."
                    .into(),
            );
        }
        Some(_) => {
            let least = (BEYOND * e.fit.volatility.value * (7.0_f64 / 365.25).sqrt()).exp();
            list.push(format!(
                "A spike that begins smaller than about \u{d7} {least:.2} cannot be told from the price's usual ways."
            ));
        }
    }
    list
}

fn assumptions(e: &Examined, asked: &AskedOf) -> Vec<String> {
    let mut list = Vec::new();
    if !asked.half_life_typed {
        let (low, high) = e.asked.half_life_years;
        list.push(format!("half-life of a departure from {low} to {high} years (a judgement)"));
    }
    if !asked.spike_half_life_typed && e.fit.spikes.is_some() {
        let weeks = e.asked.spike_half_life_weeks;
        list.push(format!("half of a spike is gone after {weeks} weeks (a judgement)"));
    }
    if asked.inflation.is_none() {
        list.push("no rise of prices in general (none was given)".into());
    }
    list
}

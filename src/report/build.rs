//! A comparison into the report: tables, sentences, cautions, foot.
//!
//! Start at [`report`].

use super::cold_night::led_without_a_break;
use super::figures::{Measure, grouped, money, quoted, too_close};
use super::model::{Report, Table};
use super::{
    air, bills, chart_tables, cold_night, cold_night_details, extremes, given, kept, life_cycle,
    life_cycle_verdict, money, past_use, ratings, slow, supply, walls, warmth, wording, worksheet,
};
use crate::comparison::note::Mismatch;
use crate::comparison::{Comparison, Note, OptionResult, RunWeather, Warmth};
use crate::units::fahrenheit_to_celsius;
use crate::weather::YearKind;
use crate::weather::quality::Flag;
use crate::weather::statistics::{coldest_hour, degree_days_below};

/// Two yearly costs are too close to call within this share of the lesser, or [`TIE_AMOUNT`].
pub const TIE_SHARE: f64 = 0.05;
/// Two yearly costs are too close to call within this amount of the job's currency.
pub const TIE_AMOUNT: f64 = 100.0;

/// Words a comparison.
pub fn report(c: &Comparison) -> Report {
    let measure = Measure(c.units);
    Report {
        title: c.title.clone(),
        about: about(c, measure),
        verdict: verdict(c, measure),
        tipping_price: None,
        tables: tables(c, measure),
        appendices: appendices(c, measure),
        notes: c.notes.iter().map(|n| wording::note(n, measure, &c.currency)).collect(),
        assumptions: wording::assumptions(&c.assumptions.0),
        cautions: wording::cautions(c),
        foot: foot(c),
    }
}

/// Tables for people: warmth before cost.
fn tables(c: &Comparison, measure: Measure) -> Vec<Table> {
    let mut tables = vec![warmth::warmth(c, measure), warmth::cold_night(c, measure)];
    tables.extend(cold_night_details::shown(c, measure));
    tables.extend(cold_night::worst_failures(c, measure));
    tables.push(cold_night::power_out(c, measure));
    tables.extend(supply::stores(c));
    tables.push(money::yearly_cost(c));
    tables.push(money::fuel_use(c));
    tables.extend(bills::shown(c).map(|bill| bills::one_month(c, &bill)));
    tables.extend(supply::paid(c));
    tables.extend(supply::ordinary(c));
    tables.extend(kept::tables(c));
    tables.extend(life_cycle::tables(c));
    tables.push(air::table(c));
    tables.extend(past_use::table(c));
    tables.extend(ratings::table(c));
    tables.push(given::table(c));
    tables
}

fn appendices(c: &Comparison, measure: Measure) -> Vec<Table> {
    let mut tables =
        vec![money::monthly_cost(c), money::postings(c), bills::all(c), worksheet::bin_worksheet(c, measure)];
    tables.extend(supply::deliveries(c));
    tables.extend(cold_night_details::tables(c, measure));
    let extremes = c.winters.as_ref().and_then(|winters| winters.extremes.as_ref());
    tables.extend(extremes.and_then(|extremes| extremes::table(&[(c.weather.place(), extremes)], measure)));
    tables.extend(life_cycle::costs(c));
    tables.push(walls::table(c));
    tables.extend(chart_tables::behind_charts(c, measure));
    tables.push(chart_tables::assumptions(c));
    tables
}

fn about(c: &Comparison, measure: Measure) -> Vec<String> {
    let mut lines = vec![c.site.name.clone()];
    lines.extend(c.about.clone());
    lines.extend(c.prepared_by.as_ref().map(|who| format!("Prepared by: {who}")));
    lines.push(format!("Weather: {}", weather_words(c, measure)));
    lines.extend(c.site.elevation_m.map(|m| format!("Elevation: {}", measure.height_words(m))));
    lines
}

/// The house and its weather, as charts say under their titles.
pub fn house_and_weather(c: &Comparison) -> String {
    format!("{} \u{b7} {}", c.title, weather_words(c, Measure(c.units)))
}

/// Place, kind of year, degree-days, coldest hour.
pub fn weather_words(c: &Comparison, measure: Measure) -> String {
    let year = match &c.weather {
        RunWeather::Bins(bins) => return format!("{}, hours by temperature only", bins.place),
        RunWeather::Year(year) => year,
    };
    let kind = match year.kind {
        YearKind::Typical => "typical year".to_owned(),
        YearKind::Synthetic { .. } => "synthetic year".to_owned(),
        YearKind::Actual(number) => format!("actual year {number}"),
        YearKind::FromJuly(number) => format!("July {number} to June {}", number + 1),
    };
    let days = degree_days_below(&year.columns.dry_bulb_c, fahrenheit_to_celsius(65.0));
    let coldest = coldest_hour(&year.columns.dry_bulb_c).map_or(f64::NAN, |h| h.temperature_c);
    let base = measure.pick("65 \u{b0}F", "18.3 \u{b0}C");
    format!(
        "{}, {kind}; {} heating degree-days below {base}; coldest hour {}",
        year.place,
        grouped(measure.difference(days), 0),
        measure.temperature_words(coldest)
    )
}

fn verdict(c: &Comparison, measure: Measure) -> Vec<String> {
    let mut lines: Vec<String> = doubtful_weather(c).into_iter().collect();
    for cold in c.options.iter().filter(|o| o.goes_cold()) {
        lines.push(goes_cold(c, cold, measure));
    }
    lines.extend(slow::sentence(c, measure));
    let mut warm: Vec<&OptionResult> = c.options.iter().filter(|o| !o.goes_cold()).collect();
    warm.sort_by(|a, b| a.yearly_cost().total_cmp(&b.yearly_cost()));
    match warm.as_slice() {
        [] => lines.push("No option keeps this house warm through this year.".into()),
        [only] => lines.push(format!(
            "Only \u{201c}{}\u{201d} keeps the house warm through this year: about {} a year.",
            only.design.name,
            about_money(c, only.yearly_cost())
        )),
        _ => lines.push(cheapest(c, &warm)),
    }
    lines.extend(life_cycle_verdict::verdict(c));
    lines.extend(extreme(c, &warm, measure));
    lines
}

fn goes_cold(c: &Comparison, o: &OptionResult, measure: Measure) -> String {
    if let Some(words) = slow::dry_without(o, measure) {
        return words;
    }
    let zones = c.zones.iter().zip(&o.zones).filter(|(_, z)| z.sums.comfort.hours_not_kept_warm > 0);
    let parts: Vec<String> = zones
        .map(|(zone, z)| {
            let comfort = &z.sums.comfort;
            let hours = grouped(comfort.hours_not_kept_warm as f64, 0);
            let low = comfort.room.as_ref().map(|r| measure.temperature_words(r.lowest_c));
            let low = low.map_or_else(String::new, |t| format!(", down to {t}"));
            format!("{} for {hours} h{low}", zone.name)
        })
        .collect();
    let dry = o.stores.iter().any(|store| store.supplied.year.run_outs > 0);
    let why = if dry { " It runs out of fuel." } else { "" };
    format!("\u{201c}{}\u{201d} GOES COLD: {}.{why}", o.design.name, parts.join("; "))
}

/// Of at least two options that keep the house warm, least yearly cost first.
fn cheapest(c: &Comparison, warm: &[&OptionResult]) -> String {
    let of = match c.options.iter().any(|o| o.warmth() == Warmth::SlowToRecover) {
        true => "Of the options that keep it warm, or are only slow after the set-back,",
        false => "Of the options that keep it warm,",
    };
    let cost = |o: &OptionResult| about_money(c, o.yearly_cost());
    match (close_ones(warm), warm) {
        ([best], [_, next, ..]) => format!(
            "{of} {} costs least to run at these prices: about {} a year; next comes {} at about {}.",
            quoted(&best.design.name),
            cost(best),
            quoted(&next.design.name),
            cost(next)
        ),
        (close, _) => {
            let close: Vec<_> = close.iter().map(|o| (o.design.name.as_str(), cost(o))).collect();
            let (names, amounts) = too_close(&close);
            format!("{of} {names} are too close to call: about {amounts} a year.")
        }
    }
}

/// Of options by yearly cost, least first, those that cost about as little as the first, itself among them.
pub fn close_ones<'a, 'o>(ranked: &'a [&'o OptionResult]) -> &'a [&'o OptionResult] {
    let near = |best: &OptionResult| ranked.iter().take_while(|o| is_close(best, o)).count();
    ranked.first().map_or(&[], |best| ranked.get(..near(best)).unwrap_or_default())
}

/// Whether the yearly costs of two options are too close to call.
fn is_close(best: &OptionResult, next: &OptionResult) -> bool {
    next.costs_more_than(best).0 <= TIE_AMOUNT.max(TIE_SHARE * best.yearly_cost())
}

/// A sentence before all others, where the weather looks wrong.
fn doubtful_weather(c: &Comparison) -> Option<String> {
    // Nothing is run on a year that lacks too many hours.
    let wrong = |note: &Note| matches!(note, Note::Weather(flag) if !matches!(flag, Flag::Lacking { .. }));
    c.notes.iter().any(wrong).then(|| {
        "CHECK THE WEATHER FIRST: the file looks wrong (see Notes), and every figure here rests on it.".into()
    })
}

fn extreme(c: &Comparison, warm: &[&OptionResult], measure: Measure) -> Option<String> {
    let low = measure.temperature_words(c.site.extreme_low_c?);
    let falls = |o: &&&OptionResult| o.share_at_extreme_low().is_some_and(|s| s < 1.0);
    let short: Vec<String> =
        warm.iter().filter(falls).map(|o| format!("\u{201c}{}\u{201d}", o.design.name)).collect();
    let mild = |note: &Note| matches!(note, Note::Mismatch(Mismatch::WarmExtremeLow { .. }));
    if c.notes.iter().any(mild) {
        return Some(format!(
            "What holds on the coldest night is not known: extreme_low, {low}, is warmer than the weather itself."
        ));
    }
    let (subject, carry) = if warm.len() == 1 { ("It", "carries") } else { ("They", "carry") };
    let (last, others) = match short.split_last() {
        None if warm.is_empty() => return None,
        None => {
            return Some(format!(
                "{subject} also {carry} every zone on the coldest night to plan for, {low}{}.",
                fed_evenly(c, warm)
            ));
        }
        Some(parts) => parts,
    };
    let (names, fall) = match others {
        [] => (last.clone(), "falls"),
        _ => (format!("{} and {last}", others.join(", ")), "fall"),
    };
    Some(format!(
        "On the coldest night to plan for, {low}, {names} {fall} short in some zone: see \u{201c}How far \
         down\u{201d}."
    ))
}

/// Whose stove must make its day's fuel last, and whose must be fed day and night.
fn fed_evenly(c: &Comparison, warm: &[&OptionResult]) -> String {
    let only_if = |hangs: &dyn Fn(&OptionResult) -> bool, words: &str| {
        let names = warm.iter().filter(|o| hangs(o)).map(|o| format!("\u{201c}{}\u{201d}", o.design.name));
        let names: Vec<String> = names.collect();
        if names.is_empty() { String::new() } else { format!(", {} only if {words}", names.join(" and ")) }
    };
    let spread = only_if(&|o| o.fuelling_lasts_h().is_some(), "the day\u{2019}s fuel is spread over the day");
    spread + &only_if(&|o| led_without_a_break(c, o), "its stove is fed day and night")
}

/// To the nearest ten, as nobody can know it closer.
fn about_money(c: &Comparison, amount: f64) -> String {
    money(&c.currency, (amount / 10.0).round() * 10.0)
}

/// Version, job, weather, seeds.
pub fn foot(c: &Comparison) -> String {
    let (place, hash) = (c.weather.place(), c.weather.sha256());
    let short = |hash: &str| hash.get(..12).unwrap_or(hash).to_owned();
    let mut foot = format!(
        "winterledger {}; job {}; weather {place} {}",
        env!("CARGO_PKG_VERSION"),
        short(&c.job_sha256),
        short(hash)
    );
    if let RunWeather::Year(year) = &c.weather
        && let YearKind::Synthetic { seed } = year.kind
    {
        foot += &format!("; weather drawn with seed {seed}");
    }
    if let Some(extremes) = c.winters.as_ref().and_then(|winters| winters.extremes.as_ref()) {
        foot += &format!("; {}", extremes::seed(extremes));
    }
    foot
}

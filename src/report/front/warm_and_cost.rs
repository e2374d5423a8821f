//! Page one: does it keep you warm, and what does it cost a year?
//!
//! Start at [`band`].

use super::rounding::{about, figure, percent, range};
use crate::comparison::{Comparison, OptionResult, RunWeather};
use crate::report::band::{Band, BandRow, Entry, Group};
use crate::report::charts::option_colour;
use crate::report::cold_night::led_without_a_break;
use crate::report::figures::{Measure, grouped};
use crate::study::Around;
use crate::weather::YearKind;

/// So many zones beside the worst are told with their shares.
const MOST_OTHERS: usize = 2;

/// The band.
pub(super) fn band(c: &Comparison, around: &Around, measure: Measure) -> Band {
    let spans: Vec<(f64, f64)> = c.options.iter().enumerate().map(|(i, o)| span(o, i, around)).collect();
    let most = spans.iter().map(|(_, high)| *high).fold(0.0, f64::max).max(1e-9);
    let row = |((i, o), (low, high)): ((usize, &OptionResult), &(f64, f64))| {
        let share = |amount: f64| (amount / most).clamp(0.0, 1.0);
        BandRow {
            option: o.design.name.clone(),
            colour: option_colour(i),
            entries: vec![
                cold_hours(o, i, around),
                coldest_room(o, i, around, measure),
                coldest_night(c, o),
                figure(&c.currency, o.yearly_cost()),
                Entry::Bar { low: share(*low), at: share(o.yearly_cost()), high: share(*high) },
                range(&c.currency, *low, *high),
            ],
        }
    };
    Band {
        name: "warm_and_cost".into(),
        groups: vec![warm_group(c, measure), cost_group()],
        rows: c.options.iter().enumerate().zip(&spans).map(row).collect(),
        strong: Some(3),
        remark: Some(remark(c, around)),
    }
}

fn warm_group(c: &Comparison, measure: Measure) -> Group {
    let extreme = c.site.extreme_low_c.map(|t| measure.temperature_words(t));
    let night = extreme
        .map_or("On the coldest night".to_owned(), |t| format!("On the coldest night to plan for, {t}"));
    Group::new(
        "Does it keep you warm?",
        [("Hours too cold".to_owned(), true), ("Coldest room".into(), true), (night, false)],
    )
}

fn cost_group() -> Group {
    let heads = [("About".to_owned(), true), (String::new(), false), ("It could be".into(), true)];
    Group::new("What does it cost a year?", heads)
}

/// The least and the greatest yearly cost of everything that is known to leave it open, each by itself.
fn span(o: &OptionResult, place: usize, around: &Around) -> (f64, f64) {
    let cost = o.yearly_cost();
    let loads = around.loads.iter().filter_map(|run| Some(run.options.get(place)?.yearly_cost()));
    let plates = o.yearly_cost_range().into_iter().flat_map(|(low, high)| [low, high]);
    let stores = o.stores.iter().flat_map(|store| {
        let (low, high) = store.supplied.cost_range;
        [low, high].map(|of_store| cost - store.supplied.cost() + of_store)
    });
    let winters = around.winters.iter().filter_map(|run| Some(run.options.get(place)?.yearly_cost()));
    let all = loads.chain(plates).chain(stores).chain(winters);
    all.fold((cost, cost), |(low, high), amount| (low.min(amount), high.max(amount)))
}

/// Those of the winter shown, and of the worst other of the record where that has more.
fn cold_hours(o: &OptionResult, place: usize, around: &Around) -> Entry {
    let own = o.hours_not_kept_warm();
    let hours = |hours: usize| format!("{} h", grouped(hours as f64, 0));
    let worst =
        around.winters.iter().filter_map(|run| Some(run.options.get(place)?.hours_not_kept_warm)).max();
    match (own, worst.filter(|worst| *worst > own)) {
        (0, None) => Entry::words("none"),
        (0, Some(worst)) => Entry::words(format!("none; {} in the worst winter", hours(worst))),
        (own, None) => Entry::Figure { exact: own as f64, shown: hours(own) },
        (own, Some(worst)) => Entry::Figure {
            exact: own as f64,
            shown: format!("{}; {} in the worst winter", hours(own), hours(worst)),
        },
    }
}

/// Of all winters that were run.
fn coldest_room(o: &OptionResult, place: usize, around: &Around, measure: Measure) -> Entry {
    let room = |celsius: f64| Entry::Figure {
        exact: measure.temperature(celsius),
        shown: measure.temperature_words(celsius),
    };
    let others = around.winters.iter().filter_map(|run| run.options.get(place)?.lowest_room_c);
    others.chain(o.lowest_room_c()).reduce(f64::min).map_or(Entry::Missing, room)
}

fn coldest_night(c: &Comparison, o: &OptionResult) -> Entry {
    let shares = c.zones.iter().zip(&o.zones);
    let shares =
        shares.filter_map(|(zone, z)| Some((zone.name.as_str(), z.at_extreme_low.as_ref()?.share())));
    let mut short: Vec<(&str, f64)> = shares.filter(|(_, share)| *share < 1.0).collect();
    short.sort_by(|a, b| a.1.total_cmp(&b.1));
    match (o.share_at_extreme_low(), short.as_slice()) {
        (None, _) => Entry::words("not known"),
        (Some(_), []) if led_without_a_break(c, o) => Entry::words("kept warm, if it is fed day and night"),
        (Some(_), []) => Entry::words(o.fuelling_lasts_h().map_or("kept warm".into(), fed_evenly)),
        (Some(_), all) if all.len() == c.zones.len() && all.iter().all(|(_, share)| *share < 0.01) => {
            Entry::words("no heat at all")
        }
        (Some(least), [worst, others @ ..]) => {
            let fed = if led_without_a_break(c, o) { ", fed day and night" } else { "" };
            let shown = short_words(c.zones.len(), worst, others) + fed;
            Entry::Figure { exact: 100.0 * least, shown }
        }
    }
}

/// The hours of the year burn a day's fuel as heat is wanted; that the cold night is carried hangs on less haste.
fn fed_evenly(hours: f64) -> String {
    format!(
        "only if the day\u{2019}s fuel is spread over the day: burned as heat is wanted it lasts {:.0}\u{a0}hours",
        hours.floor()
    )
}

/// The worst zone in full, a few others by their share; a house of one zone needs no name.
fn short_words(zones: usize, (name, share): &(&str, f64), others: &[(&str, f64)]) -> String {
    let gets = format!("gets {} of the heat it needs", percent(*share));
    if zones == 1 {
        return gets;
    }
    let told = others.iter().take(MOST_OTHERS).map(|(name, share)| format!(", {name} {}", percent(*share)));
    let more = match others.len().saturating_sub(MOST_OTHERS) {
        0 => String::new(),
        1 => ", and 1 more zone too little".to_owned(),
        more => format!(", and {more} more zones too little"),
    };
    format!("{name} {gets}{}{more}", told.collect::<String>())
}

fn remark(c: &Comparison, around: &Around) -> String {
    let typical = match &c.weather {
        RunWeather::Year(year) if year.kind == YearKind::Typical => {
            "None: none in a typical year, which leaves out extremes. "
        }
        _ => "",
    };
    let stores = match c.options.iter().any(|o| !o.stores.is_empty()) {
        true => ", and how full the tank is in July",
        false => "",
    };
    let winters = match around.winters.len() {
        0 | 1 => String::new(),
        many => format!(", and any of the {many} winters of this record"),
    };
    let household = match household(c) {
        Some((least, most)) => {
            let (low, high) = (about(&c.currency, least), about(&c.currency, most));
            let span = if low == high { format!("about {low}") } else { format!("about {low} to {high}") };
            format!(" About: of it {span} for hot water, lights and cooking; fixed charges are beside that.")
        }
        None => String::new(),
    };
    format!(
        "{typical}It could be: the heat needed {:.0} % less or more, what nameplates leave open\
         {stores}{winters}; each by itself. Prices stay.{household}",
        100.0 * c.load_uncertainty
    )
}

/// What hot water, lights, drying and cooking cost, the least and the most of the options; nothing where that is
/// nothing.
fn household(c: &Comparison) -> Option<(f64, f64)> {
    let paid = c.options.iter().map(OptionResult::household_cost);
    let span =
        paid.fold((f64::INFINITY, 0.0), |(low, high): (f64, f64), paid| (low.min(paid), high.max(paid)));
    (span.1 > 0.0).then_some(span)
}

//! Page one: the power fails, the truck is late, something breaks.
//!
//! Start at [`band`].

use super::rounding::percent;
use crate::coldnight::failure::{FailedPart, FailureGroup, FailureRun};
use crate::comparison::{Comparison, OptionResult, StoreResult};
use crate::fuel::FuelId;
use crate::report::band::{Band, BandRow, Entry, Group};
use crate::report::charts::option_colour;
use crate::report::cold_night::fed_without_a_break;
use crate::report::draws::few_words;
use crate::report::figures::{Measure, grouped};
use crate::report::supply_words::truck_words;
use crate::report::wording;
use crate::study::WinterDraws;
use crate::study::draws::Probability;

/// Less of the need than this is not what keeps a house warm.
const ENOUGH: f64 = 0.99;

/// A generator smaller by less than this is no other.
const TELLING_KW: f64 = 0.25;

const POWER_FAILS: &str = "lights, pumps and starting currents come on top";
/// Where some cell tells what its compressor takes as it starts.
const WITH_STARTS: &str = "lights and pumps come on top, and starting currents where none is told";

/// The band.
pub(super) fn band(c: &Comparison, winters: Option<&WinterDraws>, measure: Measure) -> Band {
    let days = c.options.iter().find_map(|o| o.cold_night.failures.as_ref()).map(|f| f.days);
    let breaks = days
        .map(|days| format!("If the machine or blower that matters most is out for the {days} coldest days"));
    let power_fails = match c.options.iter().filter_map(generator).any(|needed| needed.start_kw.is_some()) {
        true => WITH_STARTS,
        false => POWER_FAILS,
    };
    let night = c.zones.iter().map(|zone| zone.design_temperature_c).reduce(f64::min);
    let night = night.map_or_else(String::new, |t| format!(" at {} outdoors", measure.temperature_words(t)));
    let mut heads = vec![
        (format!("If the power fails{night} ({power_fails})"), false),
        ("If the truck is late".into(), false),
    ];
    heads.extend(breaks.map(|words| (words, false)));
    let row = |(i, o): (usize, &OptionResult)| {
        let runs_dry = winters.and_then(|drawn| drawn.options.get(i)?.run_outs);
        let mut entries = vec![power(c, o), truck(c, o, runs_dry)];
        entries.extend(days.map(|_| broken(c, o, measure)));
        BandRow { option: o.design.name.clone(), colour: option_colour(i), entries }
    };
    Band {
        name: "mishaps".into(),
        groups: vec![Group::new("And when something goes wrong?", heads)],
        rows: c.options.iter().enumerate().map(row).collect(),
        strong: None,
        remark: None,
    }
}

fn power(c: &Comparison, o: &OptionResult) -> Entry {
    let plate = |kw: f64| format!("{:.1}\u{a0}kW", o.cold_night.power_out.plate_kw(kw));
    let without = o.cold_night.power_out.without_power;
    let fed = if fed_without_a_break(c, o) { ", fed day and night" } else { "" };
    let Some(needed) = generator(o) else {
        return without_generator(without, fed);
    };
    let before = without.map_or("no heat".into(), |share| {
        format!("{} of the house\u{2019}s heat without power{fed}", percent(share))
    });
    let surge = needed.start_kw.map_or_else(String::new, |start| format!(", {} as it starts", plate(start)));
    let (kw, share) = needed.all;
    let with_it = match needed.strips_off {
        None if share >= ENOUGH && without.is_none() => format!("to heat, a generator of {}", plate(kw)),
        None => format!("a generator of {} carries {}", plate(kw), carries(c, share)),
        Some((bare_kw, bare)) => format!(
            "a generator of {} carries {}, one of {} {}",
            plate(bare_kw),
            carries(c, bare),
            plate(kw),
            carries(c, share)
        ),
    };
    Entry::Figure { exact: kw, shown: format!("{before}; {with_it}{surge}") }
}

/// Where nothing that heats draws a power that counts: a fire, or a burner that nothing lights then.
fn without_generator(share: Option<f64>, fed: &str) -> Entry {
    match share {
        None => Entry::words("no heat without power"),
        Some(share) if share < ENOUGH => {
            let shown = format!("{} of the heat that the house needs, without power{fed}", percent(share));
            Entry::Figure { exact: 0.0, shown }
        }
        Some(_) => Entry::words(format!("heats without power{fed}")),
    }
}

/// What of the need is met, where there are several zones of that of the one that gets least.
fn carries(c: &Comparison, share: f64) -> String {
    let whose = if c.zones.len() > 1 { "the worst zone" } else { "it" };
    if share >= ENOUGH { "all".into() } else { format!("{} of what {whose} needs", percent(share)) }
}

/// What a generator must carry for heat.
struct Needed {
    /// All that heats, or all but needless strips where the rest suffices: kW, and the share of the need that is met.
    all: (f64, f64),
    /// The same with strips off, where that is less of both and still heats.
    strips_off: Option<(f64, f64)>,
    /// What it takes for a moment, kW, where that is more than the least of these.
    start_kw: Option<f64>,
}

/// Nothing where what heats needs no power.
fn generator(o: &OptionResult) -> Option<Needed> {
    let out = &o.cold_night.power_out;
    let bare = (out.strips_off.running_kw, out.strips_off.share_of_need);
    let full = (out.strips_on.running_kw, out.strips_on.share_of_need);
    let all = if bare.1 >= ENOUGH { bare } else { full };
    if all.0 <= 0.0 {
        return None;
    }
    let strips_off = Some(bare).filter(|(kw, _)| *kw > 0.0 && *kw + TELLING_KW < all.0);
    let least_kw = strips_off.map_or(all.0, |(kw, _)| kw);
    let start_kw = out.start_surge_kw.map(|(_, most)| most).filter(|start| *start > least_kw);
    Some(Needed { all, strips_off, start_kw })
}

fn truck(c: &Comparison, o: &OptionResult, runs_dry: Option<Probability>) -> Entry {
    if let Some(store) = o.stores.first() {
        return late(store, runs_dry);
    }
    let comes = |id: FuelId| c.fuels.get(id).is_some_and(|fuel| !fuel.metered);
    let burns = c.fuels.iter().find(|(id, _)| comes(*id) && o.ledger.quantity(*id) != 0.0);
    Entry::words(burns.map_or("needs no truck".to_owned(), |(_, fuel)| {
        format!("not worked out: the job has no tank for {}", fuel.name)
    }))
}

fn late(result: &StoreResult, runs_dry: Option<Probability>) -> Entry {
    let (store, year) = (&result.supplied.store, &result.supplied.year);
    let contract = &store.contract;
    if year.run_outs > 0 {
        return Entry::words(format!(
            "it ran dry in this very winter, with the truck in {} days",
            contract.lead_days
        ));
    }
    match result.days_from_reorder {
        Some(days) => Entry::Figure {
            exact: days,
            shown: format!(
                "{}\u{a0}days left in deep cold; {}{}",
                grouped(days.floor(), 0),
                truck_words(contract, days),
                runs_dry.map(|share| format!("; {}", few_words(share))).unwrap_or_default()
            ),
        },
        None => Entry::words("nothing burned in deep cold"),
    }
}

fn broken(c: &Comparison, o: &OptionResult, measure: Measure) -> Entry {
    let worst = o.cold_night.failures.as_ref().and_then(|failures| failures.worst());
    let Some((run, low)) = worst.and_then(|run| Some((run, run.lowest_room_c()?))) else {
        return Entry::Missing;
    };
    let pipes = if freezes(run) { ": pipes may freeze" } else { "" };
    let shown =
        format!("{}: down to {}{pipes}", what_fails(c, o, &run.group), measure.temperature_words(low));
    Entry::Figure { exact: measure.temperature(low), shown }
}

/// Which blower it is needs telling only where the option has several.
fn what_fails(c: &Comparison, o: &OptionResult, group: &FailureGroup) -> String {
    let runs = o.cold_night.failures.iter().flat_map(|failures| &failures.runs);
    let blowers = runs.filter(|run| run.group.part == FailedPart::Blower).count();
    match (group.part, blowers) {
        (FailedPart::Blower, 1) => "the blower of the ducts".into(),
        _ => wording::failure(group, c),
    }
}

fn freezes(run: &FailureRun) -> bool {
    run.hours_below_45f().is_some_and(|hours| hours > 0)
}

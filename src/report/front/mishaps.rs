//! Page one: the power fails, the truck is late, something breaks.
//!
//! Start at [`band`].

use crate::coldnight::failure::{FailedPart, FailureGroup, FailureRun};
use crate::comparison::{Comparison, OptionResult, StoreResult};
use crate::fuel::FuelId;
use crate::report::band::{Band, BandRow, Entry, Group};
use crate::report::charts::option_colour;
use crate::report::draws::few_words;
use crate::report::figures::{Measure, grouped};
use crate::report::supply_words::truck_words;
use crate::report::wording;
use crate::study::WinterDraws;
use crate::study::draws::Probability;

/// Less of the need than this is not what keeps a house warm.
const ENOUGH: f64 = 0.99;

const POWER_FAILS: &str = "If the power fails (lights, pumps and starting currents come on top)";
/// Where some cell tells what its compressor takes as it starts.
const WITH_STARTS: &str =
    "If the power fails (lights and pumps come on top, and starting currents where none is told)";

/// The band.
pub(super) fn band(c: &Comparison, winters: Option<&WinterDraws>, measure: Measure) -> Band {
    let days = c.options.iter().find_map(|o| o.cold_night.failures.as_ref()).map(|f| f.days);
    let breaks = days
        .map(|days| format!("If the machine or blower that matters most is out for the {days} coldest days"));
    let power_fails = match c.options.iter().filter_map(generator_kw).any(|(_, start)| start.is_some()) {
        true => WITH_STARTS,
        false => POWER_FAILS,
    };
    let mut heads = vec![(power_fails.to_owned(), false), ("If the truck is late".into(), false)];
    heads.extend(breaks.map(|words| (words, false)));
    let row = |(i, o): (usize, &OptionResult)| {
        let runs_dry = winters.and_then(|drawn| drawn.options.get(i)?.run_outs);
        let mut entries = vec![power(o), truck(c, o, runs_dry)];
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

fn power(o: &OptionResult) -> Entry {
    let Some((kw, start)) = generator_kw(o) else { return Entry::words("some heat without power") };
    // To the next half, as nobody sizes a generator closer.
    let up = |kw: f64| (kw * 2.0).ceil() / 2.0;
    let surge = start.map_or_else(String::new, |start| format!(", {:.1}\u{a0}kW as it starts", up(start)));
    let shown = format!("no heat; to heat, a generator of {:.1}\u{a0}kW{surge}", up(kw));
    Entry::Figure { exact: kw, shown }
}

/// What a generator must carry, and for a moment where that is more; nothing where some heat needs none.
fn generator_kw(o: &OptionResult) -> Option<(f64, Option<f64>)> {
    let out = &o.cold_night.power_out;
    let bare = out.strips_off.share_of_need >= ENOUGH;
    let kw = if bare { out.strips_off.running_kw } else { out.strips_on.running_kw };
    let start = out.start_surge_kw.map(|(_, most)| most).filter(|start| *start > kw);
    (!out.heats).then_some((kw, start))
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

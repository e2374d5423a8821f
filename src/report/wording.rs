//! Words for what the other modules say in enums: uses, reasons, notes, sources, cautions.
//!
//! Start anywhere; one function a kind of thing.

use super::doubts::doubt;
use super::efficiencies::efficiency;
pub use super::figures::MONTHS;
use super::figures::{Measure, grouped, money};
use super::oddities::{mismatch, oddity};
use super::proportions::disproportion;
use super::slips::{slip, tenfold};
use super::unlikely::unlikely;
use super::{bill_words, extremes, reading};
use crate::coldnight::failure::{FailedPart, FailureGroup};
use crate::coldnight::strips::Panel;
use crate::comparison::note::BetterLockout;
use crate::comparison::{Comparison, Note};
use crate::equipment::{Machine, MachineKind};
use crate::simulation::EndUse;
use crate::simulation::bins::EconomicBalance;
use crate::sources::{Assumption, Source};
use crate::units::split_number;

/// A use in words.
pub fn end_use(end_use: EndUse) -> &'static str {
    match end_use {
        EndUse::Base => "base",
        EndUse::HotWater => "hot water",
        EndUse::Cooking => "cooking",
        EndUse::Drying => "drying",
        EndUse::Standby => "standby",
        EndUse::Cooling => "cooling",
        EndUse::SpaceHeating => "space heating",
        EndUse::BackupHeat => "backup heat",
        EndUse::FixedCharge => "fixed charge",
        EndUse::Rent => "rent",
        EndUse::Delivery => "delivery",
        EndUse::StockChange => "stock change",
    }
}

/// A source in words.
pub fn source(source: &Source) -> String {
    match source {
        Source::Job(None) => "the job".into(),
        Source::Job(Some(text)) => format!("the job: {text}"),
        Source::Published(text) => format!("published: {text}"),
        Source::CommonPractice(text) => format!("common practice: {text}"),
        Source::FromMemory(text) => format!("from memory: {text}"),
        Source::Derived(text) => format!("derived: {text}"),
    }
}

/// Assumptions in words, those of the same key, value and source together.
///
/// Each begins with the key that would replace it: as a job writes it where its value can stand there, else behind
/// a colon, so that nobody copies words.
pub fn assumptions(list: &[Assumption]) -> Vec<String> {
    let mut groups: Vec<(&str, &Assumption, Vec<&str>)> = Vec::new();
    for a in list {
        let (place, key) = a.key.rsplit_once('.').unwrap_or(("", &a.key));
        match groups
            .iter_mut()
            .find(|(k, first, _)| *k == key && first.value == a.value && first.source == a.source)
        {
            Some((_, _, places)) => places.push(place),
            None => groups.push((key, a, vec![place])),
        }
    }
    let words = |(key, a, places): (&str, &Assumption, Vec<&str>)| {
        format!("{} in {} ({})", setting(key, &a.value), places.join(", "), source(&a.source))
    };
    groups.into_iter().map(words).collect()
}

/// A number, one word, or a number with a unit can be copied into a job; other words only tell.
fn setting(key: &str, value: &str) -> String {
    let words = value.split_whitespace().count();
    let begins_with_number = split_number(value).is_ok();
    match words {
        1 if value.parse::<f64>().is_ok() || value.parse::<bool>().is_ok() => format!("{key} = {value}"),
        1 => format!("{key} = \"{value}\""),
        2 if begins_with_number => format!("{key} = \"{value}\""),
        _ => format!("{key}: {value}"),
    }
}

const CLOCK_UNKNOWN: &str =
    "The time zone is not known, so clocks stay on standard time all year; add site.time_zone.";

/// A note on the job of a scenario.
fn of_scenario(scenario: &str, of_it: &Note, measure: Measure, currency: &str) -> String {
    format!("Scenario \u{201c}{scenario}\u{201d}: {}", note(of_it, measure, currency))
}

/// A note in words.
pub fn note(note: &Note, measure: Measure, currency: &str) -> String {
    match note {
        Note::ExtremesNotCovered(why) => extremes::not_covered(*why),
        Note::RecordLow { low, winters, coldest_c, planned } => {
            extremes::record_low(low, (*winters, *coldest_c), *planned, measure)
        }
        Note::TypicalYear => {
            "The weather is a typical year: it leaves out the coldest winters. The coldest night to plan \
             for is the job's own extreme_low."
                .into()
        }
        Note::SyntheticYear { seed, extreme_low_given } => synthetic_year(*seed, *extreme_low_given),
        Note::DoesNotCool { option, zones } => does_not_cool(option, zones),
        Note::Weather(flag) => super::weather_flags::words(flag, measure),
        Note::WintersLeftOut { first_years } => reading::winters_left_out(first_years),
        Note::WeatherFilled { hours, at } => reading::filled(*hours, at.as_ref()),
        Note::OneOfRecord { first_year, complete_years, asked } => {
            reading::one_of_record(*first_year, *complete_years, *asked)
        }
        Note::Reading(remark) => reading::remark(remark, measure),
        Note::SiteOffset { kelvin } => reading::site_offset(*kelvin, measure),
        Note::ClockUnknown => CLOCK_UNKNOWN.into(),
        Note::BinsOnly => BINS_ONLY.into(),
        Note::PastBill(bill) => super::past_use::off(bill),
        Note::Oddity(found) => oddity(found, measure),
        Note::Mismatch(found) => mismatch(found, measure),
        Note::Slip(found) => slip(found, measure),
        Note::Tenfold(found) => tenfold(found, measure),
        Note::Disproportion(found) => disproportion(found, measure),
        Note::Efficiency(found) => efficiency(found, measure),
        Note::Unlikely(found) => unlikely(found, measure),
        Note::Doubt(found) => doubt(found, measure, currency),
        Note::OfScenario { scenario, note } => of_scenario(scenario, note, measure, currency),
        Note::BetterLockout(found) => better_lockout(found, measure, currency),
        Note::Guessed { machine, coldest_row_c, below_c, cut_out_c, .. } => {
            guessed(machine, [*coldest_row_c, *below_c, *cut_out_c].map(|t| measure.temperature_words(t)))
        }
        Note::NoDataBelow { machine, below_c, hours } => {
            off_for(machine, "colder than", measure.temperature_words(*below_c), BEYOND, *hours)
        }
        Note::CutOut { machine, at_c, hours } => {
            off_for(machine, "at or below its cut-out of", measure.temperature_words(*at_c), "", *hours)
        }
        Note::Label { machine, rating, label, own } => contradicted(machine, rating, *label, *own),
        Note::PanelUnknown { options } => panel_unknown(options),
        Note::PanelCarries { options, spare_a } => panel_carries(options, *spare_a),
        Note::PanelTooSmall { option, asked_a, spare_a } => format!(
            "\u{201c}{option}\u{201d} needs a larger panel: its strips and baseboards ask {} A (125 % of \
             their current at 240 V), compressors, blowers, electric water heaters, dryers and ranges on top by their nameplates; the panel can spare {} A.",
            grouped(asked_a.ceil(), 0),
            grouped(*spare_a, 0)
        ),
        Note::Store { option, store, what } => {
            super::supply_words::note(option, store, what, measure, currency)
        }
        Note::StoresNotCounted => STORES_NOT_COUNTED.into(),
        Note::EconomicBalance { option, zone, balance } => economic_balance(option, zone, *balance, measure),
        Note::Price(found) => bill_words::price_note(found),
    }
}

const BINS_ONLY: &str = "The weather has hours by temperature only: no room temperatures, no months, no set-backs; the \
                         steady need stands for the room.";

const STORES_NOT_COUNTED: &str =
    "Hours by temperature have no days, so no tank is counted: delivered fuel is paid for as it burns.";

fn hours_words(hours: usize) -> String {
    let unit = if hours == 1 { "hour" } else { "hours" };
    format!("{} {unit}", grouped(hours as f64, 0))
}

fn does_not_cool(option: &str, zones: &[String]) -> String {
    let zones = zones.join(" and ");
    format!(
        "“{option}” does not cool {zones}, which other options do: its cost is that of heating alone there."
    )
}

fn better_lockout(found: &BetterLockout, measure: Measure, currency: &str) -> String {
    let other = found.lockout_c.map_or("none".into(), |t| measure.temperature_words(t));
    format!(
        "“{}”, {}: its compressor lock-out of {} is a costly one; with {other} it would cost about {} less a \
         year at these prices. `winterledger changeover JOB --option \"{}\" --zone \"{}\"` shows them all, JOB being \
         the job's file.",
        found.option,
        found.zone,
        measure.temperature_words(found.own_lockout_c),
        money(currency, (found.saved / 10.0).round() * 10.0),
        found.option,
        found.zone
    )
}

fn asked_of_panel(options: &[(String, f64)]) -> String {
    let asked = options
        .iter()
        .map(|(name, amps)| format!("\u{201c}{name}\u{201d} {}\u{a0}A", grouped(amps.ceil(), 0)));
    asked.collect::<Vec<_>>().join(", ")
}

fn panel_carries(options: &[(String, f64)], spare_a: f64) -> String {
    format!(
        "The {}\u{a0}A that the panel can spare are enough for strips and baseboards alone (125 % of their current \
         at 240 V): {}. Circuits of compressors, blowers, \
         electric water heaters, dryers and ranges come on top, by their nameplates: ask an electrician.",
        grouped(spare_a, 0),
        asked_of_panel(options)
    )
}

fn panel_unknown(options: &[(String, f64)]) -> String {
    format!(
        "Strips and baseboards need room in the electric panel (125 % of their current at 240 V): {}. Circuits of \
         compressors, blowers, electric water heaters, dryers and ranges come on top, by their nameplates. Ask an electrician whether it is there, or give \
         [house] panel_spare.",
        asked_of_panel(options)
    )
}

fn contradicted(machine: &str, rating: &str, label: f64, own: Option<f64>) -> String {
    match own {
        Some(own) => format!(
            "{machine}: its label says {rating} {label}, but its own rows, which are what is costed, make {own:.1}: \
             one of the two may be of another machine, or the rows leave something out."
        ),
        None => format!(
            "{machine}: its label of {rating} {label} cannot be held against its rows, which do not reach the \
             outdoor temperatures of that rating."
        ),
    }
}

fn economic_balance(option: &str, zone: &str, balance: EconomicBalance, measure: Measure) -> String {
    let when = match balance {
        EconomicBalance::Below(t) => format!(
            "the furnace heats for less below {} outdoors, the heat pump above",
            measure.temperature_words(t)
        ),
        EconomicBalance::Everywhere => "the furnace heats for less at every outdoor temperature".into(),
        EconomicBalance::Nowhere => "the heat pump heats for less at every outdoor temperature".into(),
    };
    format!("\u{201c}{option}\u{201d}, {zone}: at the mean prices of the year {when}.")
}

fn synthetic_year(seed: u64, extreme_low_given: bool) -> String {
    let extremes = match extreme_low_given {
        true => "The coldest night to plan for is the job's own extreme_low.",
        false => "Extremes are not covered: the job gives no extreme_low.",
    };
    format!(
        "The weather is a synthetic year: made from monthly means (seed {seed}, the sun as at 40\u{b0} north), \
         no hour of it was measured. Degree-days can be trusted to some percent, in warm places less, most with \
         monthly_means; cold hours and backup heat less: of six places tried with three seeds, hours below 17 °F came out \
         14 % too few to 28 % too many. Try other seeds, and use a weather file where there is one. {extremes}"
    )
}

/// Why no more is known of it.
const BEYOND: &str = ", 5 K (9 °F) beyond its coldest row";

/// How long a machine was off in the cold.
fn off_for(machine: &str, when: &str, degrees: String, why: &str, hours: usize) -> String {
    format!("{machine}: off {when} {degrees}{why}, {}.", hours_words(hours))
}

/// That a machine runs where its figures have ended: its coldest row, from where on, and its cut-out.
fn guessed(machine: &str, [coldest_row, below, cut_out]: [String; 3]) -> String {
    format!(
        "{machine}: its coldest row is at {coldest_row}. Below {below} its output goes on along the line of its coldest \
         rows down to its cut-out of {cut_out}, which is a guess. Give a colder row."
    )
}

/// What fails, in words.
pub fn failure(group: &FailureGroup, c: &Comparison) -> String {
    let machine = group.machines.first().and_then(|i| c.machines.get(*i)).map_or("", |m| &m.name);
    let zone = c.zones.get(group.zone).map_or("", |z| &z.name);
    match group.part {
        FailedPart::OutdoorUnit => {
            let head = group.machines.first().and_then(|i| c.machines.get(*i));
            let shared = head.and_then(|m| c.machines.get(m.outdoor_unit?));
            format!("{} (outdoor unit)", shared.map_or(machine, |unit| &unit.name))
        }
        FailedPart::Head => format!("{machine} (head)"),
        FailedPart::Burner => format!("{machine} (burner)"),
        FailedPart::ResistanceHeater => machine.to_owned(),
        FailedPart::Blower => format!("blower of {zone}"),
    }
}

/// The kind of part that fails, as files name it.
pub fn failed_part(part: FailedPart) -> &'static str {
    match part {
        FailedPart::OutdoorUnit => "outdoor_unit",
        FailedPart::Head => "head",
        FailedPart::Burner => "burner",
        FailedPart::ResistanceHeater => "resistance_heater",
        FailedPart::Blower => "blower",
    }
}

/// What the panel says to more strips.
pub fn panel(panel: Panel) -> String {
    match panel {
        Panel::NothingAsked => "nothing asked".into(),
        Panel::Carries(left) => {
            format!("carries the strips, {} A left for all else", grouped(left.floor(), 0))
        }
        Panel::TooSmall(short) => format!("too small by {} A", grouped(short.ceil(), 0)),
        Panel::Unknown => "ask an electrician".into(),
    }
}

/// The cautions that hold for this comparison.
pub fn cautions(comparison: &Comparison) -> Vec<String> {
    let has = |kind: MachineKind| comparison.machines.iter().any(|m| m.kind == kind);
    let burns =
        |id: &str| comparison.fuels.find(id).is_some_and(|f| comparison.machines.iter().any(|m| m.fuel == f));
    let mut list = vec![
        "This is an estimate, not a quote, nor the load calculation or fuel-gas design that a permit needs. \
         Local codes and a licensed contractor decide.",
        "Keep freeze protection wherever capacity falls short of the need.",
        "Never heat with an oven, or with an unvented heater alone.",
        "Circuits are the work of a licensed electrician.",
    ];
    if burns("propane") {
        list.push("Propane: if you smell gas, leave, then call. It sinks into low places.");
        list.push("Propane: keep regulator and vents clear of snow; fill tanks to 80 % at most.");
        list.push(
            "Propane: a licensed person checks for leaks after any interruption; new piping is \
             pressure-tested.",
        );
    }
    if comparison.machines.iter().any(Machine::burns) {
        list.push("Fit carbon-monoxide alarms wherever something burns.");
    }
    if has(MachineKind::HeatPump) {
        list.push(
            "Heat pump: set the outdoor unit on a stand above snow; refrigerant is handled by certified people.",
        );
    }
    list.push(
        "A generator stands outdoors, away from openings, on a transfer switch, and never feeds back into \
         the line.",
    );
    list.into_iter().map(str::to_owned).collect()
}

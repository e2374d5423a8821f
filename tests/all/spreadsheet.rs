//! The spreadsheet, worked out by LibreOffice, against the engine: as it is, and with other prices typed.
//!
//! Start at the tests.

use crate::demo_job::{chicago, job, text, with_tank};
use crate::oracle_agrees::dice::Dice;
use crate::outside::Outside;
use crate::python;
use serde_json::{Value, json};
use winterledger::calendar::Stamp;
use winterledger::comparison::{Comparison, Warmth, compare};
use winterledger::report::life_cycle_picture::spent;
use winterledger::report::pictures::yearly_cost;
use winterledger::report::{build, spreadsheet::spreadsheet};
use winterledger::study::levers::WhyOff;
use winterledger::study::price_lines::PriceOf;
use winterledger::study::{OptionLines, price_lines};

/// A fuel, what the price is of as the sheet has it, the job's key, and its unit.
type Cell = (&'static str, &'static str, &'static str, &'static str);

const ELECTRICITY: Cell = ("Electricity", "energy", "prices.electricity.price", " $/kWh");
const FIXED: Cell = ("Electricity", "fixed charge", "prices.electricity.fixed", " $/month");
const JANUARY: Cell = ("Propane", "Jan", "prices.propane.price_by_month.jan", " $/gal");
const FEBRUARY: Cell = ("Propane", "Feb", "prices.propane.price_by_month.feb", " $/gal");
const JULY: Cell = ("Propane", "Jul", "prices.propane.price_by_month.jul", " $/gal");
const SNAP: Cell =
    ("Propane", "January cold snap, 10 Jan to 28 Feb", "prices.propane.spike.January cold snap.times", "");
const OIL: Cell = ("Heating oil No. 2", "energy", "prices.oil_no_2.price", " $/gal");
const HEATING: Cell = ("Electricity (heating)", "energy", "prices.electricity.heating.price", " $/kWh");
const PEAK: Cell =
    ("Electricity", "summer, peak", "prices.electricity.season.summer.period.peak.price", " $/kWh");

fn run(text: &str, changes: &[(Cell, f64)]) -> Comparison {
    let typed: Vec<(&str, String)> =
        changes.iter().map(|((_, _, key, unit), value)| (*key, value_text(*value, unit))).collect();
    let typed: Vec<(&str, &str)> = typed.iter().map(|(key, value)| (*key, value.as_str())).collect();
    compare(&job(text, &typed), &chicago()).unwrap()
}

fn value_text(value: f64, unit: &str) -> String {
    format!("{value:.17}{unit}")
}

fn bytes(c: &Comparison) -> Vec<u8> {
    spreadsheet(c, &build::report(c), &price_lines(c)).unwrap()
}

/// What LibreOffice makes of the job's spreadsheet with each list of changes typed into it.
fn worked_out(c: &Comparison, cases: &[Vec<(Cell, f64)>]) -> Value {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("prices.xlsx");
    std::fs::write(&file, bytes(c)).unwrap();
    let typed = |((fuel, of, ..), value): &(Cell, f64)| json!([fuel, of, value]);
    let cases: Vec<Vec<Value>> = cases.iter().map(|case| case.iter().map(typed).collect()).collect();
    let task = json!({ "file": file, "folder": folder.path(), "cases": cases });
    python::run("spreadsheet.py", &task.to_string())
}

fn near(cell: &Value, amount: f64) {
    let found = cell.as_f64().unwrap_or_else(|| panic!("{cell} is no number, not {amount}"));
    assert!((found - amount).abs() < 0.005, "{found}: {amount}");
}

/// The costs of a year and of the years to the cent; the sheet was made of `first`, and `whole` is what
/// the engine makes of the prices typed.
fn agree(found: &Value, first: &Comparison, whole: &Comparison) {
    let list = |key: &str| found[key].as_array().unwrap().clone();
    assert_eq!(list("prices").len(), whole.options.len());
    for ((row, option), as_run) in list("prices").iter().zip(&whole.options).zip(&first.options) {
        assert_eq!(row[0], option.design.name.as_str());
        near(&row[1], as_run.yearly_cost());
        near(&row[2], option.yearly_cost());
        near(&row[3], option.yearly_cost() - as_run.yearly_cost());
    }
    for (row, option) in list("by_fuel").iter().zip(&whole.options) {
        let by_fuel: f64 = row.as_array().unwrap().iter().filter_map(Value::as_f64).sum();
        near(&json!(by_fuel), option.yearly_cost());
    }
    let lives: Vec<_> = whole.life_cycles.as_ref().unwrap().options.iter().flatten().collect();
    assert_eq!(list("years").len(), lives.len());
    for (row, life) in list("years").iter().zip(lives) {
        near(&row[1], life.with_incentives.life.total());
    }
}

/// The demonstration with a tank and, for electricity, seasons, hours, riders of both kinds, tax and a
/// rate for heating; for propane, tax, rent and a rider.
fn rich() -> String {
    let whole = with_tank();
    let from = whole.find("[prices.electricity]").unwrap();
    let to = whole.find("[prices.propane]").unwrap();
    let electricity = r#"[prices.electricity]
fixed = "36 $/month"
price = "0.17 $/kWh"
tax = 0.06
rider = [{ name = "grid", price = "0.02 $/kWh" }, { name = "fuel clause", share = 0.05 }]
[prices.electricity.heating]
fixed = "8 $/month"
price = "0.11 $/kWh"
[[prices.electricity.season]]
name = "summer"
from = "06-01"
to = "09-30"
price = "0.19 $/kWh"
period = [{ name = "peak", from = "14:00", to = "19:00", days = "weekdays", price = "0.31 $/kWh" }]

"#;
    let propane = r#"[prices.propane]
tax = 0.04
rider = [{ name = "safety", price = "0.05 $/gal" }]
"#;
    format!("{}{electricity}{}", &whole[..from], whole[to..].replacen("[prices.propane]\n", propane, 1))
}

#[test]
fn libreoffice_works_the_demonstration_out_to_the_cent_as_it_is_and_with_other_prices_typed() {
    let first = run(&with_tank(), &[]);
    let mut dice = Dice::new(2028);
    let mut cases = vec![Vec::new(), vec![(ELECTRICITY, 0.30)], vec![(JANUARY, 5.38)]];
    cases.extend((0..4).map(|_| {
        let mut case = vec![(ELECTRICITY, dice.real(0.05, 0.6)), (FIXED, dice.real(1.0, 90.0))];
        case.extend([JANUARY, FEBRUARY, JULY].map(|cell| (cell, dice.real(0.5, 8.0))));
        case.extend([(SNAP, dice.real(0.5, 4.0)), (OIL, dice.real(1.0, 9.0))]);
        case
    }));
    let found = worked_out(&first, &cases);
    println!("{}", found["version"]);
    agree(&found["stored"], &first, &first);
    for (case, found) in cases.iter().zip(found["cases"].as_array().unwrap()) {
        let whole = run(&with_tank(), case);
        agree(found, &first, &whole);
        for (row, option) in found["prices"].as_array().unwrap().iter().zip(&whole.options) {
            let typed: Vec<String> =
                case.iter().map(|((.., key, _), value)| format!("{key}={value:.4}")).collect();
            let typed = if typed.is_empty() { "as it is".into() } else { typed.join(", ") };
            Outside {
                what: format!("yearly cost of \u{201c}{}\u{201d}, {typed}", option.design.name),
                origin: "independent tool",
                source: "LibreOffice Calc (Debian's; version not pinned)",
                value: row[2].as_f64().unwrap(),
                tolerance: 0.005,
            }
            .holds(option.yearly_cost());
        }
    }
}

#[test]
fn so_it_does_with_seasons_hours_riders_tax_and_a_rate_for_heating() {
    let first = run(&rich(), &[]);
    assert!(price_lines(&first).options.iter().all(|option| matches!(option, OptionLines::On(_))));
    let cases = vec![Vec::new(), vec![(PEAK, 0.47), (JANUARY, 4.1), (HEATING, 0.2)]];
    let found = worked_out(&first, &cases);
    agree(&found["stored"], &first, &first);
    for (case, found) in cases.iter().zip(found["cases"].as_array().unwrap()) {
        agree(found, &first, &run(&rich(), case));
    }
}

#[test]
fn a_share_of_nothing_is_carried_as_what_it_is_taken_of() {
    let first = run(&rich().replace("share = 0.05", "share = 0.0"), &[]);
    let found = worked_out(&first, &[Vec::new()]);
    let sums = found["stored"]["sums"].as_array().unwrap();
    assert!(sums.iter().any(|row| row[0] == 0.0), "no share of nothing");
    // The file's own results against LibreOffice's: each share's price and the sum that it is of.
    for (ours, theirs) in sums.iter().zip(found["cases"][0]["sums"].as_array().unwrap()) {
        near(&ours[1], theirs[1].as_f64().unwrap());
    }
}

#[test]
fn sheets_are_of_the_paper_that_the_job_names() {
    // 1 is Letter, 9 is A4: published, ECMA-376 part 1, 18.3.1.63 (`paperSize`).
    let us = "[job]\n";
    for (line, paper) in [("", 1), ("paper = \"letter\"\n", 1), ("paper = \"a4\"\n", 9)] {
        let named = text().replacen(us, &format!("{us}{line}"), 1);
        let found = worked_out(&run(&named, &[]), &[]);
        let all = found["stored"]["paper"].as_array().unwrap();
        assert!(!all.is_empty() && all.iter().all(|of| *of == paper), "{line}: {all:?}");
    }
}

#[test]
fn an_option_that_would_run_otherwise_says_so_as_soon_as_a_price_is_changed() {
    let rule = "sharing = \"in_time\"                       # or \"whole_hour\"";
    let by_cost = text().replace(rule, "changeover = \"cost\"");
    let first = run(&by_cost, &[]);
    let cases = vec![Vec::new(), vec![(ELECTRICITY, 0.30)]];
    let found = worked_out(&first, &cases);
    agree(&found["cases"][0], &first, &first);
    let whole = run(&by_cost, &cases[1]);
    let rows = found["cases"][1]["prices"].as_array().unwrap();
    let years = found["cases"][1]["years"].as_array().unwrap();
    let mut told = 0;
    for ((row, year), option) in rows.iter().zip(years).zip(&whole.options) {
        if option.design.name == "Heat pump and propane" {
            assert_eq!((&row[2], &year[1]), (&json!("run again"), &json!("run again")));
            told += 1;
        } else {
            near(&row[2], option.yearly_cost());
        }
    }
    assert_eq!(told, 1);
}

/// The furnace's tank lasts with the set-back, when a truck takes 21 days; without it, it runs dry.
#[test]
fn an_option_that_runs_dry_without_its_set_back_is_called_that_and_nowhere_cold() {
    let held = [("supply.500 gallon tank.lead_days", "21"), ("supply.500 gallon tank.cold_lead_days", "21")];
    let night = "[{ from = \"22:00\", to = \"06:00\", set_point = \"60 degF\" }]";
    let set_back = [held[0], held[1], ("house.zone.main.set_back", night)];
    let of = |changes: &[_]| compare(&job(&with_tank(), changes), &chicago()).unwrap();
    let (with, without) = (of(&set_back), of(&held));
    let place = with.options.iter().position(|o| o.design.name == "Propane furnace").unwrap();
    let run_outs = |c: &Comparison| c.options[place].stores[0].supplied.year.run_outs;
    // The job without the key, run on its own, is what the twin must be.
    assert_eq!((run_outs(&with), run_outs(&without) > 0), (0, true));
    let option = &with.options[place];
    assert_eq!(option.without_set_backs.unwrap().run_outs, run_outs(&without));
    assert_eq!(option.warmth(), Warmth::DryWithoutSetBacks);
    let hours = option.hours_not_kept_warm();
    let told = build::report(&with).verdict;
    let own: Vec<_> =
        told.iter().filter(|line| line.contains("Propane furnace") && line.contains("OUT OF FUEL")).collect();
    assert!(own.len() == 1 && own[0].contains("without the set-back"), "{told:?}");
    assert!(
        !told.iter().any(|line| line.starts_with("\u{201c}Propane furnace\u{201d} GOES COLD")),
        "{told:?}"
    );
    assert!(hours > 0 && own[0].contains(&format!("{hours} hours after it")), "{own:?}");
    let bar = yearly_cost(&with, "").options[place].warning.clone().unwrap();
    assert_eq!(bar, format!("short after its set-back: {hours} h; dry without it"));
    let spent = spent(&with, "").unwrap().lines;
    assert!(spent.iter().any(|line| line.name == "Propane furnace (dry without its set-back)"), "{spent:?}");
    let sheet = &worked_out(&with, &[Vec::new()])["stored"]["warm"];
    assert_eq!(sheet[place], format!("short after its set-back, {hours} hours; out of fuel without it"));
}

#[test]
fn the_lines_of_every_option_sum_to_what_it_costs() {
    for text in [text(), with_tank(), rich()] {
        let first = run(&text, &[]);
        let lines = price_lines(&first);
        for (place, option) in first.options.iter().enumerate() {
            let sum: f64 = lines.amounts(place, &lines.as_it_is()).unwrap().iter().sum();
            assert!((sum - option.yearly_cost()).abs() < 1e-8, "{}: {sum}", option.design.name);
        }
    }
}

#[test]
fn more_spikes_than_a_word_has_bits_are_told_each_by_itself() {
    let spike = |day: usize| {
        let (month, day) = (1 + day / 28, 1 + day % 28);
        format!(
            "[[prices.propane.spike]]\nname = \"{month}-{day}\"\nfrom = \"{month:02}-{day:02}\"\nto = \
             \"{month:02}-{day:02}\"\ntimes = 1.5\n\n"
        )
    };
    let spikes: String = (0..70).map(spike).collect();
    let c = run(&text().replace("[prices.oil_no_2]", &format!("{spikes}[prices.oil_no_2]")), &[]);
    let price = c.prices.of(c.fuels.find("propane").unwrap()).unwrap();
    assert_eq!(price.spikes.len(), 71);
    // The 70th is of 14 March, 70 = 2 · 28 + 14; the demonstration's own spike comes first.
    let noon = Stamp { month: 3, day: 14, hour: 12, weekday: 0 };
    assert_eq!(price.spikes_at(noon).collect::<Vec<_>>(), [70]);
    let lines = price_lines(&c);
    assert!(lines.options.iter().all(|option| matches!(option, OptionLines::Off(WhyOff::ManySpikes, _))));
    let told = lines.prices.iter().filter(|p| matches!(p.of, PriceOf::Spike(_))).count();
    assert_eq!(told, 71);
    assert!(!bytes(&c).is_empty());
}

#[test]
fn two_runs_make_the_same_bytes() {
    let c = run(&with_tank(), &[]);
    assert_eq!(bytes(&c), bytes(&c));
}

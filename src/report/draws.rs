//! Tables of winters drawn by chance: what each option costs, on which terms it runs dry how often, which
//! tank keeps within a risk.
//!
//! Start at [`tables`] and [`sentences`].

use super::figures::{grouped, money};
use super::model::{Cell, Column, Table};
use super::supply_words;
use crate::comparison::Comparison;
use crate::study::WinterDraws;
use crate::study::draws::{PolicyRow, PolicyTerms, Probability, SizeForRisk, Spread, YearsBasis};

/// The tables, in reading order.
pub fn tables(c: &Comparison, draws: &WinterDraws) -> Vec<Table> {
    let mut list = vec![options(c, draws)];
    if !draws.policies.is_empty() {
        list.extend([policies(c, draws), sizes(c, draws)]);
    }
    list
}

/// What each option costs in drawn winters, and how often it runs dry; how they were drawn stands under it.
pub fn own_terms(c: &Comparison, draws: &WinterDraws) -> Table {
    let table = options(c, draws);
    let remark = table.remark.into_iter().chain(sentences(c, draws)).collect::<Vec<_>>().join(" ");
    Table { remark: Some(remark), ..table }
}

/// How winters were drawn, and how often what runs dry, in sentences.
pub fn sentences(c: &Comparison, draws: &WinterDraws) -> Vec<String> {
    let mut list = vec![how(c, draws)];
    let stores = draws.options.iter().enumerate().filter_map(|(i, o)| Some((i, o.run_outs?)));
    list.extend(stores.map(|(i, run_outs)| format!("{} {}.", quoted(c, i), words(run_outs))));
    list
}

fn quoted(c: &Comparison, option: usize) -> String {
    format!("\u{201c}{}\u{201d}", name(c, option))
}

fn name(c: &Comparison, option: usize) -> &str {
    c.options.get(option).map_or("", |option| option.design.name.as_str())
}

fn how(c: &Comparison, draws: &WinterDraws) -> String {
    let count = grouped(draws.setting.winters as f64, 0);
    let basis = match draws.basis {
        YearsBasis::Record { winters, left_out: 0 } => format!("the {winters} winters of the record"),
        YearsBasis::Record { winters, left_out } => {
            format!("the {winters} winters of the record ({left_out} with too many hours missing left out)")
        }
        YearsBasis::Made { years, spread_k } => {
            let spread = super::figures::Measure(c.units).difference(spread_k);
            let unit = super::figures::Measure(c.units).pick("\u{b0}F", "K");
            format!(
                "{years} years made out of one, November to March milder or colder as a whole with a standard \
                 deviation of {spread:.1} {unit} (from memory, of the northern United States; a longer cold \
                 snap than that year's own is not in them)"
            )
        }
    };
    let coupled = match draws.setting.independent {
        false => "Each drives how much is burned, how long the truck takes and what fuel costs together.",
        true => {
            "Demand, queue and price go by winters of their own, as the job asks: cold does not couple them."
        }
    };
    let still: Vec<&str> =
        draws.still.iter().filter_map(|fuel| Some(c.fuels.get(*fuel)?.name.as_str())).collect();
    let still = match still.as_slice() {
        [] => String::new(),
        names => format!(
            " The price of {} moves only as the job's own year says; [prices.FUEL.moves] would draw it.",
            names.join(", ")
        ),
    };
    format!("{count} winters drawn by chance out of {basis}. {coupled}{still}")
}

/// A probability of a run-out a winter in words.
pub fn words(p: Probability) -> String {
    let of = grouped(p.of as f64, 0);
    if let Some(one_in) = p.one_in_at_most() {
        return format!("ran dry in none of {of} winters: fewer than 1 in {}", two_digits(one_in));
    }
    if p.times == p.of {
        return format!("ran dry in every one of {of} winters");
    }
    let one_in = 1.0 / p.share();
    let error = 100.0 * p.standard_error();
    let share = format!("{:.1} % of {of} winters (standard error {error:.1} %)", 100.0 * p.share());
    match one_in {
        often if often < 1.5 => format!("ran dry in {share}: in most winters"),
        _ => format!("ran dry in {share}: about 1 winter in {}", two_digits(one_in.round())),
    }
}

/// The same in a few words: `dry in about 1 winter in 180`.
pub fn few_words(p: Probability) -> String {
    match p.one_in_at_most() {
        Some(one_in) => {
            format!("in winters drawn by chance it never did: fewer than 1 in\u{a0}{}", two_digits(one_in))
        }
        None if 2 * p.times > p.of => "dry in most winters".into(),
        None => format!("dry in about 1 winter in\u{a0}{}", two_digits((1.0 / p.share()).round())),
    }
}

/// Cut to two digits: more would say more than is known.
fn two_digits(value: f64) -> String {
    let unit = 10.0_f64.powf((value.log10().floor() - 1.0).max(0.0));
    grouped((value / unit + 1e-9).floor() * unit, 0)
}

fn amounts(c: &Comparison, typical: f64, cost: &Spread) -> Vec<Cell> {
    let amount = |value: f64| Cell::Number { value, shown: money(&c.currency, value) };
    [typical, cost.p10, cost.p50, cost.p90].into_iter().map(amount).collect()
}

fn cost_columns() -> [Column; 4] {
    [
        Column::numbers("Own year", "cost_in_own_year"),
        Column::numbers("P10", "cost_p10"),
        Column::numbers("P50", "cost_p50"),
        Column::numbers("P90", "cost_p90"),
    ]
}

fn percent(p: Probability) -> Cell {
    let shown = match p.one_in_at_most() {
        Some(_) => format!("< {:.2}", 300.0 / p.of.max(1) as f64),
        None => format!("{:.1}", 100.0 * p.share()),
    };
    Cell::Number { value: 100.0 * p.share(), shown }
}

fn error(p: Probability) -> Cell {
    Cell::Number { value: 100.0 * p.standard_error(), shown: format!("{:.1}", 100.0 * p.standard_error()) }
}

fn options(c: &Comparison, draws: &WinterDraws) -> Table {
    let mut columns = vec![Column::words("Option", "option")];
    columns.extend(cost_columns());
    columns.extend([
        Column::numbers("Runs dry, % of winters", "run_out_percent"),
        Column::numbers("\u{b1}", "run_out_standard_error_percent"),
        Column::numbers("Dry hours", "mean_dry_hours"),
        Column::numbers("Hours not warm", "mean_hours_not_kept_warm"),
    ]);
    let row = |(i, o): (usize, &crate::study::draws::OptionDraws)| {
        let mut cells = vec![Cell::text(name(c, i))];
        cells.extend(amounts(c, o.typical, &o.cost));
        cells.extend([
            o.run_outs.map_or(Cell::Missing, percent),
            o.run_outs.map_or(Cell::Missing, error),
            o.run_outs.map_or(Cell::Missing, |_| Cell::number(o.dry_hours, 1)),
            Cell::number(o.cold_hours, 1),
        ]);
        cells
    };
    let remark = "Own year: the job's weather, prices and spikes as they are. P10, P50, P90: one winter in ten, \
                  half of them, nine in ten cost less. One winter at a time: not the mean over the years of a \
                  life. Hours: mean of all drawn winters, most of which may have none. Where heaters take turns \
                  by cost, they go by the job's own prices.";
    Table {
        name: "drawn_winters".into(),
        heading: "What does a winter's year cost, drawn by chance, and does it run dry?".into(),
        columns,
        rows: draws.options.iter().enumerate().map(row).collect(),
        remark: Some(remark.into()),
    }
}

fn policies(c: &Comparison, draws: &WinterDraws) -> Table {
    let mut columns = vec![Column::words("Option", "option"), Column::words("Terms", "terms")];
    columns.extend(cost_columns());
    columns.extend([
        Column::numbers("Runs dry, %", "run_out_percent"),
        Column::numbers("Dry hours", "mean_dry_hours"),
        Column::words("", "mark"),
    ]);
    let row = |row: &PolicyRow| {
        let mut cells = vec![Cell::text(name(c, row.option)), Cell::text(terms(row))];
        cells.extend(amounts(c, row.typical, &row.cost));
        let mark = if row.best_ordinary { "best ordinary" } else { "" };
        cells.extend([percent(row.run_outs), Cell::number(row.dry_hours, 1), Cell::text(mark)]);
        cells
    };
    let remark = format!(
        "Each option on its own terms, on the job's other terms for the fuel, and on ordinary ones at the price \
         of the day; prices of plans that nobody has quoted are not made up. Best ordinary: of those at the \
         price of the day, the least P50 among those that run dry in at most {} % of winters, else the one that \
         runs dry least often.",
        grouped(100.0 * draws.setting.risk, 2).trim_end_matches('0').trim_end_matches('.')
    );
    Table {
        name: "drawn_policies".into(),
        heading: "On which terms does the fuel come, and what does each cost and risk?".into(),
        columns,
        rows: draws.policies.iter().map(row).collect(),
        remark: Some(remark),
    }
}

fn terms(row: &PolicyRow) -> String {
    let words = supply_words::terms_and_lead(&row.store.contract);
    match row.terms {
        PolicyTerms::Own => format!("as in the job: {words}"),
        PolicyTerms::OfJob => format!("{}: {words}", row.store.name),
        PolicyTerms::Ordinary => words,
    }
}

fn sizes(c: &Comparison, draws: &WinterDraws) -> Table {
    let fuel_of = |row: &SizeForRisk| {
        let policy = draws.policies.iter().find(|policy| policy.option == row.option);
        policy.and_then(|policy| c.fuels.get(policy.store.fuel))
    };
    let row = |row: &SizeForRisk| {
        let (units, unit) = fuel_of(row).map_or((1.0, "kWh"), |f| (f.kwh_per_unit, f.selling_unit.as_str()));
        vec![
            Cell::text(name(c, row.option)),
            Cell::number(row.capacity_kwh / units, 0),
            Cell::text(unit),
            percent(row.at_own_level),
            row.level.map_or(Cell::Missing, |(level, _)| Cell::number(100.0 * level, 0)),
            row.level.map_or(Cell::Missing, |(_, run_outs)| percent(run_outs)),
            Cell::text(if row.own { "the job's own" } else { "" }),
        ]
    };
    let risk = 100.0 * draws.setting.risk;
    let remark = "On the option's own terms, the same winters for every size. \u{2013}: no level up to 60 % keeps \
                  within the risk. Whether a small tank boils off enough in the cold is told by the report, \
                  not here.";
    Table {
        name: "tank_sizes".into(),
        heading: format!(
            "Which size, ordered at which level, runs dry in at most {} % of winters?",
            grouped(risk, 2).trim_end_matches('0').trim_end_matches('.')
        ),
        columns: vec![
            Column::words("Option", "option"),
            Column::numbers("Size", "capacity"),
            Column::words("Unit", "unit"),
            Column::numbers("Runs dry, %, ordered as in the job", "run_out_percent_at_own_level"),
            Column::numbers("Order at % full", "reorder_level_percent"),
            Column::numbers("then runs dry, %", "run_out_percent_at_level"),
            Column::words("", "mark"),
        ],
        rows: draws.sizes.iter().map(row).collect(),
        remark: Some(remark.into()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_probability_is_told_in_words() {
        let told = |times, of| words(Probability { times, of });
        assert_eq!(told(0, 10_000), "ran dry in none of 10,000 winters: fewer than 1 in 3,300");
        assert_eq!(
            told(24, 2000),
            "ran dry in 1.2 % of 2,000 winters (standard error 0.2 %): about 1 winter in 83"
        );
        assert_eq!(told(9, 9), "ran dry in every one of 9 winters");
    }
}

//! What options cost over the years, as tables.
//!
//! Start at [`tables`].

use super::figures::{grouped, money, named_together, quoted};
use super::model::{Cell, Column, Table};
use crate::comparison::{Comparison, LifeCycles, OptionLife};
use crate::economics::{Payback, Project};

/// An option's name and place, and what it costs over the years.
pub(super) type Row<'a> = (&'a str, usize, &'a OptionLife);

/// The options that the job gives a cost of installing.
pub(super) fn rows<'a>(c: &'a Comparison, lives: &'a LifeCycles) -> impl Iterator<Item = Row<'a>> {
    let named = c.options.iter().zip(&lives.options).enumerate();
    named.filter_map(|(i, (option, life))| Some((option.design.name.as_str(), i, life.as_ref()?)))
}

fn amount(c: &Comparison, value: f64) -> Cell {
    Cell::Number { value, shown: money(&c.currency, value) }
}

/// The tables for people; none where the job gives no cost of installing.
pub fn tables(c: &Comparison) -> Vec<Table> {
    c.life_cycles.as_ref().map_or_else(Vec::new, |lives| {
        let mut tables = vec![over_the_years(c, lives)];
        tables.extend(against_the_base(c, lives));
        tables.push(a_month(c, lives));
        tables
    })
}

fn over_the_years(c: &Comparison, lives: &LifeCycles) -> Table {
    let lends = rows(c, lives).any(|(_, i, _)| lives.project(i).is_some_and(|p| p.loan.is_some()));
    let mut columns = vec![
        Column::words("Option", "option"),
        Column::numbers("Installed", "installed_cost"),
        Column::numbers("Incentives", "incentives"),
    ];
    if lends {
        columns.push(Column::numbers("By loan", "loan_worth_less_amount"));
    }
    columns.extend([
        Column::numbers("Bills", "bills"),
        Column::numbers("Upkeep", "upkeep"),
        Column::numbers("Anew", "parts_anew_less_what_is_left"),
        Column::numbers("All", "life_cycle_cost"),
    ]);
    let row = |(name, i, option): Row<'_>| {
        let life = &option.with_incentives.life;
        let project = lives.project(i)?;
        let mut row = vec![Cell::text(name), amount(c, project.installed()), amount(c, -project.given())];
        row.extend(lends.then(|| amount(c, life.loan_interest)));
        row.extend([
            amount(c, life.bills),
            amount(c, life.upkeep),
            amount(c, life.replacements - life.residual),
            amount(c, life.total()),
        ]);
        Some(row)
    };
    let years = lives.economics.terms.years;
    Table {
        name: "life_cycle_cost".into(),
        heading: format!("What does it cost over {years} years, in money of today?"),
        columns,
        rows: rows(c, lives).filter_map(row).collect(),
        remark: Some(years_remark(c, lives)),
    }
}

fn years_remark(c: &Comparison, lives: &LifeCycles) -> String {
    let rate = 100.0 * lives.economics.terms.discount_rate;
    let mut remark = format!(
        "Later money is discounted at {} % a year above inflation. Anew: what wears out and is bought \
         again, less what is left in it at the end.",
        grouped(rate, 1)
    );
    if (0..c.options.len()).any(|i| lives.project(i).is_some_and(|p| p.loan.is_some())) {
        remark.push_str(
            " By loan: what its payments, at the end of each year, are worth in money of today, less what is lent; below 0 where it costs less \
             than money is discounted at.",
        );
    }
    if c.prices.0.iter().any(|price| !price.spikes.is_empty()) {
        remark.push_str(" A spike of a price is taken to come in every one of the years, not once.");
    }
    let lasting = (0..c.options.len()).filter(|i| lives.project(*i).is_some_and(Project::lasts_for_ever));
    let lasting: Vec<String> = lasting.filter_map(|i| Some(quoted(&c.options.get(i)?.design.name))).collect();
    if !lasting.is_empty() {
        remark.push_str(&format!(
            " Taken to last for ever, since the job gives no `lasts`: {}. An old machine will not.",
            named_together(&lasting)
        ));
    }
    if c.options.iter().flat_map(|o| &o.stores).any(|store| !store.supplied.store.contract.is_at_market()) {
        remark.push_str(" A contract for fuel is taken to be had again in every year.");
    }
    if let Some(names) = left_out(c, lives) {
        remark.push_str(&format!(
            " Left out, since the job does not say what it costs to install: {names}. A machine that is kept costs \
             nothing: type `amount = \"0 {}\"` for it.",
            c.currency
        ));
    }
    remark
}

/// The options that the job gives no cost of installing, by name; nothing where it gives each one.
pub(super) fn left_out(c: &Comparison, lives: &LifeCycles) -> Option<String> {
    let all = c.options.iter().zip(&lives.options);
    let without = all.filter(|(_, life)| life.is_none()).map(|(option, _)| quoted(&option.design.name));
    let names: Vec<String> = without.collect();
    (!names.is_empty()).then(|| named_together(&names))
}

/// Each option set against the base; nothing where there is no other.
fn against_the_base(c: &Comparison, lives: &LifeCycles) -> Option<Table> {
    let base = &c.options.get(lives.economics.base)?.design.name;
    let row = |(name, _, option): Row<'_>| {
        let against = lives.counted(option).against?;
        let without = option.without_incentives.against?;
        Some(vec![
            Cell::text(name),
            amount(c, option.with_incentives.against?.net_savings),
            amount(c, without.net_savings),
            Cell::maybe(against.savings_to_investment, 2),
            Cell::maybe(against.adjusted_return.map(|rate| 100.0 * rate), 1),
            payback(against.simple_payback, against.net_savings),
            payback(against.discounted_payback, against.net_savings),
        ])
    };
    let rows: Vec<_> = rows(c, lives).filter_map(row).collect();
    (!rows.is_empty()).then(|| Table {
        name: "against_base".into(),
        heading: format!("What is it worth, set against \u{201c}{base}\u{201d}?"),
        columns: vec![
            Column::words("Option", "option"),
            Column::numbers("Net savings", "net_savings"),
            Column::numbers("without incentives", "net_savings_without_incentives"),
            Column::numbers("Saved for each 1 more invested", "savings_to_investment_ratio"),
            Column::numbers("Return % a year", "adjusted_internal_rate_of_return_percent"),
            Column::numbers("Pays back in years", "simple_payback_years"),
            Column::numbers("discounted", "discounted_payback_years"),
        ],
        rows,
        remark: Some(
            "Return: the adjusted internal rate, above inflation. \u{2013}: no more is invested than in the \
             other, or nothing of it is saved. Pays back: when it is first as far as the other; a part bought anew \
             later can put it behind again, as the chart shows, whose lines leave out what machines are still worth \
             in the end. Dearer later: ahead at first, behind again when that reckoning ends."
                .into(),
        ),
    })
}

/// What is ahead for some years and dearer over all of them has paid nothing back.
fn payback(payback: Payback, net_savings: f64) -> Cell {
    match payback {
        Payback::AtOnce if net_savings < 0.0 => Cell::text("dearer later"),
        Payback::TakenBack => Cell::text("dearer later"),
        Payback::AtOnce => Cell::text("at once"),
        Payback::Years(years) => Cell::number(years, 1),
        Payback::Never => Cell::text("never"),
    }
}

/// What goes out a month in the first year.
fn a_month(c: &Comparison, lives: &LifeCycles) -> Table {
    let row = |(name, _, option): Row<'_>| {
        vec![
            Cell::text(name),
            amount(c, lives.counted(option).life.paid_today),
            amount(c, option.loan_a_month),
            amount(c, option.running_a_month),
            amount(c, option.first_month()),
        ]
    };
    Table {
        name: "a_month".into(),
        heading: "What goes out at once, and each month of the first year?".into(),
        columns: vec![
            Column::words("Option", "option"),
            Column::numbers("At once", "paid_at_once"),
            Column::numbers("Loan a month", "loan_a_month"),
            Column::numbers("Bills and upkeep a month", "bills_and_upkeep_a_month"),
            Column::numbers("Together a month", "loan_bills_and_upkeep_a_month"),
        ],
        rows: rows(c, lives).map(row).collect(),
        remark: Some("Bills on the mean of the twelve months, at today's prices.".into()),
    }
}

/// Every part and incentive of every option.
pub fn costs(c: &Comparison) -> Option<Table> {
    let lives = c.life_cycles.as_ref()?;
    let lasts = |years: Option<usize>| Cell::maybe(years.map(|y| y as f64), 0);
    let unsaid = || "not said".to_owned();
    let mut list = Vec::new();
    for (name, i, _) in rows(c, lives) {
        let Some(project) = lives.project(i) else { continue };
        let parts = project.parts.iter().map(|p| {
            let anew = p.replacement.map(|r| r.cost);
            let source = p.source.clone().unwrap_or_else(unsaid);
            ("part", p.what.clone(), p.amount, p.replacement.map(|r| r.life_years), anew, source)
        });
        let given = project.incentives.iter().map(|given| {
            let source = format!("{}, {}", given.source, given.date);
            ("incentive", given.what.clone(), -given.amount, None, None, source)
        });
        list.extend(parts.chain(given).map(|(kind, what, value, years, anew, source)| {
            let anew = anew.map_or(Cell::Missing, |value| amount(c, value));
            let (kind, what) = (Cell::text(kind), Cell::text(what));
            vec![Cell::text(name), kind, what, amount(c, value), lasts(years), anew, Cell::text(source)]
        }));
    }
    Some(Table {
        name: "installed_costs".into(),
        heading: "Every part and incentive".into(),
        columns: vec![
            Column::words("Option", "option"),
            Column::words("Kind", "kind"),
            Column::words("What", "what"),
            Column::numbers("Amount", "amount"),
            Column::numbers("Lasts years", "lasts_years"),
            Column::numbers("A new one", "renewal"),
            Column::words("Source", "source"),
        ],
        rows: list,
        remark: None,
    })
}

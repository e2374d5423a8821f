//! Tables of fuels that come by truck: how each option's store fares, what was paid, every delivery.
//!
//! Start at [`stores`].

use super::figures::{grouped, money};
use super::model::{Cell, Column, Table};
use super::supply_words;
use crate::comparison::{Comparison, OptionResult, StoreResult};
use crate::supply::ordinary::FORECAST_ERROR;

/// How the stores fare through the year; nothing where no option has one.
pub fn stores(c: &Comparison) -> Option<Table> {
    let columns = vec![
        Column::words("Option", "option"),
        Column::words("Store", "store"),
        Column::numbers("Deliveries", "deliveries"),
        Column::numbers("Lowest % full", "lowest_level_percent"),
        Column::numbers("Days from full", "days_at_design_from_full"),
        Column::numbers("Days from order", "days_at_design_from_reorder"),
        Column::numbers("Lead days", "lead_days"),
        Column::numbers("Dry hours", "dry_hours"),
        Column::numbers("Hours short of vapour", "hours_short_of_vapour"),
    ];
    let rows: Vec<_> = each(c).map(|(option, store)| store_row(option, store)).collect();
    let remark = "Days: how long the store lasts if it stays at the design temperature, from full and from the \
                  level at which it is ordered; lead days pass between order and truck. Levels are shares of \
                  the capacity. Dry hours and hours short of vapour are those of the job's own starting level. How often a \
                  store runs dry over many winters, `winterledger winters` tells.";
    (!rows.is_empty()).then(|| Table {
        name: "stores".into(),
        heading: "Does the fuel last from truck to truck?".into(),
        columns,
        rows,
        remark: Some(remark.into()),
    })
}

fn each(c: &Comparison) -> impl Iterator<Item = (&str, &StoreResult)> {
    c.options.iter().flat_map(|o| o.stores.iter().map(|store| (o.design.name.as_str(), store)))
}

fn store_row(option: &str, result: &StoreResult) -> Vec<Cell> {
    let (store, year) = (&result.supplied.store, &result.supplied.year);
    vec![
        Cell::text(option),
        Cell::text(&store.name),
        Cell::number(year.deliveries.len() as f64, 0),
        Cell::cut(100.0 * store.tank.share(year.lowest_kwh())),
        result.days_from_full.map_or(Cell::Missing, Cell::cut),
        result.days_from_reorder.map_or(Cell::Missing, Cell::cut),
        Cell::number(store.contract.lead_days as f64, 0),
        Cell::number(year.dry_hours(), 0),
        Cell::number(year.vapour_hours as f64, 0),
    ]
}

/// What the stores' fuel cost; nothing where no option has a store.
pub fn paid(c: &Comparison) -> Option<Table> {
    let columns = vec![
        Column::words("Option", "option"),
        Column::words("Terms", "terms"),
        Column::numbers("Burned", "burned"),
        Column::words("Unit", "unit"),
        Column::numbers("Mean price paid", "mean_price_paid"),
        Column::numbers("Cost of what is burned", "cost_of_burned"),
        Column::numbers("Least", "least_cost_over_starting_levels"),
        Column::numbers("Greatest", "greatest_cost_over_starting_levels"),
        Column::numbers("Cash in this year", "cash"),
    ];
    let rows: Vec<_> = each(c).map(|(option, store)| paid_row(c, option, store)).collect();
    let remark = format!(
        "Fuel, fees and rent. Mean price (of the fuel alone) and cost of what is burned: over {} levels of \
         the store at the start of the year, from its reserve to full; least and greatest among them. Cash: \
         paid from the job's own starting level, whatever is left in the store at the end.",
        crate::supply::year::STARTING_LEVELS
    );
    (!rows.is_empty()).then(|| Table {
        name: "fuel_paid".into(),
        heading: "What is paid for fuel that comes by truck?".into(),
        columns,
        rows,
        remark: Some(remark),
    })
}

fn paid_row(c: &Comparison, option: &str, result: &StoreResult) -> Vec<Cell> {
    let supplied = &result.supplied;
    let amount = |value: f64| Cell::Number { value, shown: money(&c.currency, value) };
    let (units, unit) = selling(c, result);
    let price = supplied.mean_price_over_levels * units;
    vec![
        Cell::text(option),
        Cell::text(supply_words::terms(&supplied.store.contract)),
        Cell::number(supplied.year.burned_kwh / units, 0),
        Cell::text(unit),
        Cell::Number { value: price, shown: format!("{}{price:.2}", c.currency) },
        amount(supplied.cost()),
        amount(supplied.cost_range.0),
        amount(supplied.cost_range.1),
        amount(supplied.cash),
    ]
}

/// What each option would cost at the price of the day, on the best of the ordinary terms; nothing where no
/// option has a store, or no year of hours was run.
pub fn ordinary(c: &Comparison) -> Option<Table> {
    let columns = vec![
        Column::words("Option", "option"),
        Column::words("Terms in the job", "terms"),
        Column::numbers("A year", "yearly_cost"),
        Column::words("Best ordinary terms", "ordinary_terms"),
        Column::numbers("A year so", "yearly_cost_on_ordinary_terms"),
        Column::numbers("Runs dry so, times", "run_outs_on_ordinary_terms"),
    ];
    let rows: Vec<_> = c.options.iter().filter_map(|option| ordinary_row(c, option)).collect();
    let remark = format!(
        "Ordinary: ordered by the house or kept full by the supplier, at the price of the day, in this weather \
         year; the best is the one that costs least of those on which nothing runs dry. What winters unlike this \
         one cost on each, `winterledger winters` tells. A supplier who keeps it full is taken to count {} % of the \
         use too little (common practice). {}",
        grouped(100.0 * FORECAST_ERROR, 0),
        supply_words::ordinary_leads()
    );
    (!rows.is_empty()).then(|| Table {
        name: "ordinary_terms".into(),
        heading: "What would it cost on ordinary terms, at the price of the day?".into(),
        columns,
        rows,
        remark: Some(remark),
    })
}

fn ordinary_row(c: &Comparison, option: &OptionResult) -> Option<Vec<Cell>> {
    let found = option.ordinary.as_ref()?;
    let own = option.stores.iter().find(|result| result.supplied.store.fuel == found.store.fuel)?;
    let amount = |value: f64| Cell::Number { value, shown: money(&c.currency, value) };
    let terms = supply_words::terms_and_lead(&found.store.contract);
    Some(vec![
        Cell::text(&option.design.name),
        Cell::text(supply_words::terms_and_lead(&own.supplied.store.contract)),
        amount(option.yearly_cost()),
        Cell::text(if found.is_own { "those of the job".into() } else { terms }),
        amount(found.yearly_cost),
        Cell::number(found.run_outs as f64, 0),
    ])
}

/// kWh in a selling unit of the store's fuel, and the unit.
fn selling<'a>(c: &'a Comparison, result: &StoreResult) -> (f64, &'a str) {
    let fuel = c.fuels.get(result.supplied.store.fuel);
    fuel.map_or((1.0, "kWh"), |fuel| (fuel.kwh_per_unit, fuel.selling_unit.as_str()))
}

/// Every delivery.
pub fn deliveries(c: &Comparison) -> Option<Table> {
    let columns = vec![
        Column::words("Option", "option"),
        Column::words("Store", "store"),
        Column::words("Ordered", "ordered_on"),
        Column::words("Delivered", "delivered_on"),
        Column::numbers("Amount", "amount"),
        Column::words("Unit", "unit"),
        Column::numbers("Price", "price_per_unit"),
        Column::numbers("Cost of the fuel", "cost"),
        Column::numbers("% full before", "level_before_percent"),
        Column::words("Emergency", "emergency"),
        Column::words("Leak test", "leak_test"),
    ];
    let rows: Vec<_> = each(c).flat_map(|(option, store)| delivery_rows(c, option, store)).collect();
    (!rows.is_empty()).then(|| Table {
        name: "deliveries".into(),
        heading: "Every delivery".into(),
        columns,
        rows,
        remark: None,
    })
}

fn delivery_rows(c: &Comparison, option: &str, result: &StoreResult) -> Vec<Vec<Cell>> {
    let (units, unit) = selling(c, result);
    let store = &result.supplied.store;
    let date = |day: usize| {
        result
            .supplied
            .market
            .dates
            .get(day)
            .map_or(Cell::Missing, |date| Cell::text(supply_words::date(*date)))
    };
    let yes = |so: bool| Cell::text(if so { "yes" } else { "no" });
    let row = |d: &crate::supply::book::Delivery| {
        vec![
            Cell::text(option),
            Cell::text(&store.name),
            date(d.ordered_on),
            date(d.day),
            Cell::number(d.kwh / units, 1),
            Cell::text(unit),
            Cell::number(d.amount / d.kwh * units, 4),
            Cell::number(d.amount, 2),
            Cell::number(100.0 * store.tank.share(d.before_kwh), 1),
            yes(d.emergency),
            yes(d.leak_test),
        ]
    };
    result.supplied.year.deliveries.iter().map(row).collect()
}

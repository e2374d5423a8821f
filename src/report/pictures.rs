//! A comparison into the plain values that charts draw.
//!
//! Start at [`yearly_cost`] and [`tank_level`].

use super::bill_words;
use super::bills::ShownBill;
use super::charts::{CostBar, CostChart, PriceDaysChart, PriceDaysPanel, TankChart, TankPanel};
use super::money::READING_ORDER;
use super::{slow, wording};
use crate::comparison::{Comparison, OptionResult, StoreResult};

/// Yearly cost by option, stacked by use.
pub fn yearly_cost(c: &Comparison, about: &str) -> CostChart {
    let options = c.options.iter().map(|o| {
        let uses = READING_ORDER.iter().map(|u| (*u, o.ledger.sum(|p| p.end_use == *u)));
        CostBar {
            name: o.design.name.clone(),
            segments: uses.filter(|(_, a)| *a != 0.0).map(|(u, a)| (wording::end_use(u).into(), a)).collect(),
            total: o.yearly_cost(),
            warning: slow::mark(o.warmth(), o.hours_not_kept_warm()),
        }
    });
    CostChart {
        title: "What each option costs in a year".into(),
        subtitle: about.to_owned(),
        currency: c.currency.clone(),
        spoken: "Yearly cost of each option, one bar an option.".into(),
        options: options.collect(),
        foot: format!(
            "{}An estimate, not a quote; local codes and a licensed contractor decide.",
            match c.options.iter().any(|o| !o.stores.is_empty()) {
                true =>
                    "Stock change: fuel burned out of the store, beyond what the year\u{2019}s trucks brought. ",
                false => "",
            }
        ),
    }
}

/// The lines of one month's bills of an option, stacked by use.
pub fn bill(c: &Comparison, shown: &ShownBill<'_>, about: &str) -> CostChart {
    let lines = shown.lines.iter().map(|line| CostBar {
        name: bill_words::full_name(c, &line.whole),
        segments: line.by_use.iter().map(|p| (wording::end_use(p.end_use).into(), p.amount)).collect(),
        total: line.whole.amount,
        warning: None,
    });
    CostChart {
        title: format!("What is on the bills of {}", shown.month_words()),
        subtitle: format!("\u{201c}{}\u{201d} \u{b7} {about}", shown.option.design.name),
        currency: c.currency.clone(),
        spoken: "One bar a line of the bills, by use.".into(),
        options: lines.collect(),
        foot:
            "Uses stack in order: each is charged the bill through it less the bill before it. An estimate, \
               not a quote."
                .into(),
    }
}

/// The level of each option's stores through the year; nothing where no option has one.
pub fn tank_level(c: &Comparison, about: &str) -> Option<TankChart> {
    let stores = c.options.iter().flat_map(|o| o.stores.iter().map(move |store| (o, store)));
    let panels: Vec<TankPanel> = stores.map(|(o, store)| tank_panel(c, o, store)).collect();
    (!panels.is_empty()).then(|| TankChart {
        title: "Fuel in the store through the year".into(),
        subtitle: about.to_owned(),
        months: months(c),
        panels,
        foot: "From July on. Ordered in the evening at or below the dashed line, delivered at the start of a day. \
               An estimate of one weather year."
            .into(),
    })
}

/// The price of each day and what each truck was paid; nothing where no option has a store.
pub fn prices_paid(c: &Comparison, about: &str) -> Option<PriceDaysChart> {
    let stores = c.options.iter().flat_map(|o| o.stores.iter().map(move |store| (o, store)));
    let panels: Vec<PriceDaysPanel> = stores.map(|(o, store)| days_panel(c, o, store)).collect();
    (!panels.is_empty()).then(|| PriceDaysChart {
        title: "The price of the day, and the price paid".into(),
        subtitle: about.to_owned(),
        months: months(c),
        panels,
        foot: "From July on. What a truck is paid hangs on the terms: the price of the day of the order or of the \
               delivery, or a plan's. Fees of the delivery left out. An estimate of one weather year."
            .into(),
    })
}

fn days_panel(c: &Comparison, o: &OptionResult, result: &StoreResult) -> PriceDaysPanel {
    let supplied = &result.supplied;
    let fuel = c.fuels.get(supplied.store.fuel);
    let (units, unit) = fuel.map_or((1.0, "kWh"), |f| (f.kwh_per_unit, f.selling_unit.as_str()));
    let deliveries = &supplied.year.deliveries;
    PriceDaysPanel {
        name: format!("{}: {}", o.design.name, supplied.store.name),
        unit: format!("{}/{unit}", c.currency),
        market: supplied.market.per_kwh.iter().map(|price| price * units).collect(),
        paid: deliveries.iter().map(|d| (d.day, d.amount / d.kwh * units)).collect(),
        mean_paid: (!deliveries.is_empty()).then_some(supplied.mean_price * units),
    }
}

/// The day on which each month of a store's year begins, and its name.
fn months(c: &Comparison) -> Vec<(usize, String)> {
    let store = c.options.iter().flat_map(|o| &o.stores).next();
    let dates = store.map(|store| store.supplied.market.dates.as_slice());
    let dates = dates.unwrap_or_default().iter().enumerate();
    let firsts = dates.filter(|(i, date)| *i == 0 || date.day == 1);
    let name = |month: u8| wording::MONTHS.get(usize::from(month).checked_sub(1)?).copied();
    firsts.map(|(day, date)| (day, name(date.month).unwrap_or_default().to_owned())).collect()
}

fn tank_panel(c: &Comparison, o: &OptionResult, result: &StoreResult) -> TankPanel {
    let (store, year) = (&result.supplied.store, &result.supplied.year);
    let fuel = c.fuels.get(store.fuel);
    let units = fuel.map_or(1.0, |fuel| fuel.kwh_per_unit);
    TankPanel {
        name: format!("{}: {}", o.design.name, store.name),
        unit: fuel.map_or_else(|| "kWh".into(), |fuel| fuel.selling_unit.clone()),
        start: year.start_kwh / units,
        levels: year.levels_kwh.iter().map(|level| level / units).collect(),
        full: store.tank.full_kwh() / units,
        reorder: store.ordered_at_kwh() / units,
        reserve: store.tank.reserve_kwh() / units,
        deliveries: year.deliveries.iter().map(|d| (d.day, d.before_kwh / units, d.kwh / units)).collect(),
        dry: year.dry.iter().map(|(day, _)| *day).collect(),
    }
}

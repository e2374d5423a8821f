//! A comparison into the plain values that charts draw.
//!
//! Start at [`yearly_cost`], [`capacity`] and [`tank_level`].

use super::bill_words;
use super::bills::ShownBill;
use super::charts::{
    Balance, CapacityChart, CapacityPanel, CostBar, CostChart, MachineCurve, Mark, PriceDaysChart,
    PriceDaysPanel, TankChart, TankPanel,
};
use super::figures::Measure;
use super::money::READING_ORDER;
use super::{slow, warmth, wording};
use crate::comparison::{Comparison, OptionResult, StoreResult};
use crate::equipment::{Machine, Presence};
use crate::load::Zone;
use crate::simulation::source::heating_source_c;

/// Outdoor temperature up to which charts of heat are drawn, °C (65 °F).
const WARM_END_C: f64 = 33.0 / 1.8;

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

/// Heat needed and heat that first machines can give over outdoor temperature, a panel a zone.
pub fn capacity(c: &Comparison, measure: Measure, about: &str) -> CapacityChart {
    let coldest = c.bins.bins.iter().map(|b| b.temperature_c).chain(c.site.extreme_low_c).fold(0.0, f64::min);
    CapacityChart {
        title: "Heat needed and heat the machines can give".into(),
        subtitle: about.to_owned(),
        temperature_unit: measure.degree().into(),
        power_unit: measure.power_unit().into(),
        panels: (0..c.zones.len()).filter_map(|z| panel(c, z, coldest, measure)).collect(),
        foot: format!(
            "First machine of each option, as it reaches the rooms, running all the hour; backup left out.{} \
             An estimate, not a quote; local codes and a licensed contractor decide.",
            warmth::spread_over_the_day(c)
        ),
    }
}

fn panel(c: &Comparison, z: usize, coldest_c: f64, measure: Measure) -> Option<CapacityPanel> {
    let zone = c.zones.get(z)?;
    let grid = temperatures(coldest_c);
    let shown = |t: f64, kw: f64| (measure.temperature(t), measure.power(kw));
    let firsts = first_machines(c, z);
    let curves = firsts.iter().filter_map(|m| curve(*m, zone, &grid, &shown));
    let balances = c.options.iter().filter_map(|o| {
        let machine = c.machines.get(*o.design.zones.get(z)?.heaters.first()?)?;
        let t = o.zones.get(z)?.first_heater_balance_c?;
        let (temperature, load) = shown(t, zone.steady_need_kw(t));
        Some(Balance { machine: machine.name.clone(), temperature, load })
    });
    let mut once: Vec<Balance> = Vec::new();
    for balance in balances {
        if once.iter().all(|b| b.machine != balance.machine) {
            once.push(balance);
        }
    }
    let design = Mark { label: "design".into(), temperature: measure.temperature(zone.design_temperature_c) };
    let extreme = c
        .site
        .extreme_low_c
        .map(|t| Mark { label: "coldest planned".into(), temperature: measure.temperature(t) });
    Some(CapacityPanel {
        zone: zone.name.clone(),
        load: grid.iter().map(|t| shown(*t, zone.steady_need_kw(*t))).collect(),
        machines: curves.collect(),
        balances: once,
        marks: std::iter::once(design).chain(extreme).chain(lockouts(c, z, measure)).collect(),
        hours: c.bins.bins.iter().rev().map(|b| (measure.temperature(b.temperature_c), b.hours)).collect(),
    })
}

/// The compressor lock-outs of the zone's options, each once.
fn lockouts(c: &Comparison, z: usize, measure: Measure) -> Vec<Mark> {
    let own = c.options.iter().filter_map(|o| o.design.zones.get(z)?.changeover?.compressor_lockout_c);
    let mut list: Vec<f64> = own.collect();
    list.sort_by(f64::total_cmp);
    list.dedup();
    let mark = |t| Mark { label: "compressor lock-out".into(), temperature: measure.temperature(t) };
    list.into_iter().map(mark).collect()
}

/// Every half kelvin from the coldest to 65 °F.
fn temperatures(coldest_c: f64) -> Vec<f64> {
    let steps = ((WARM_END_C - coldest_c) * 2.0).floor() as usize;
    (0..=steps).map(|i| coldest_c + 0.5 * i as f64).collect()
}

/// Each with the place of the first option that has it.
fn first_machines(c: &Comparison, z: usize) -> Vec<(usize, &Machine)> {
    let mut list: Vec<(usize, &Machine)> = Vec::new();
    let first = |o: &OptionResult| c.machines.get(*o.design.zones.get(z)?.heaters.first()?);
    for (option, machine) in c.options.iter().enumerate().filter_map(|(i, o)| Some((i, first(o)?))) {
        if list.iter().all(|(_, m)| m.name != machine.name) {
            list.push((option, machine));
        }
    }
    list
}

fn curve(
    (option, machine): (usize, &Machine),
    zone: &Zone,
    grid: &[f64],
    shown: &impl Fn(f64, f64) -> (f64, f64),
) -> Option<MachineCurve> {
    let heating = machine.heating.as_ref()?;
    let in_room = |t: f64, kw: f64| {
        let (kept, lost_kw) = if machine.ducted { zone.ducts_at(t) } else { (1.0, 0.0) };
        (kept * kw - lost_kw).max(0.0)
    };
    let on: Vec<f64> = points(machine, zone, grid);
    let of = |t: f64| heating.row_at(heating_source_c(machine, zone, t, None));
    let turns_down = on.iter().any(|t| of(*t).least.capacity_kw < of(*t).greatest.capacity_kw);
    let lasting = machine.lasting_share(&heating.hour_at(0.0));
    Some(MachineCurve {
        name: machine.name.clone(),
        option,
        greatest: on.iter().map(|t| shown(*t, in_room(*t, lasting * of(*t).greatest.capacity_kw))).collect(),
        least: turns_down
            .then(|| on.iter().map(|t| shown(*t, in_room(*t, of(*t).least.capacity_kw))).collect()),
        off_at_end: heating.cut_out_c.is_some_and(|t| t >= heating.no_data_below_c()),
    })
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

/// The temperatures at which the machine is on, with the very edge where it goes off.
fn points(machine: &Machine, zone: &Zone, grid: &[f64]) -> Vec<f64> {
    let Some(heating) = &machine.heating else { return Vec::new() };
    let on = |t: f64| heating.presence(heating_source_c(machine, zone, t, None), true) == Presence::On;
    let first = grid.first().copied().unwrap_or_default();
    let edge =
        heating.cut_out_c.into_iter().chain([heating.no_data_below_c()]).fold(f64::NEG_INFINITY, f64::max);
    let mut list: Vec<f64> = grid.iter().copied().filter(|t| on(*t)).collect();
    let by_air = machine.ground.is_none();
    if by_air && edge > first && list.first().is_some_and(|t| *t > edge + 1e-6) {
        list.insert(0, edge);
    }
    list
}

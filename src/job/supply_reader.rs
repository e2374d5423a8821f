//! The `[[supply]]` tables into their sections.
//!
//! Must never know what a fuel is. Start at [`supply`].

use toml::de::DeValue;

use super::limits::{Limits, above_zero, from_to};
use super::money::AmountText;
use super::names::Known;
use super::rate_reader::{Money, amount};
use super::supply::{
    FeesSection, LeftOverWord, OrdersWord, OwnerWord, PlacementWord, PlanSection, PlanWord, PriceDayWord,
    SupplySection, TankSection,
};
use super::table::Table;
use super::typed::Typed;
use super::values::{flag, month_day, number, quantity, text, whole, word};
use super::wording::{Fault, digits, quoted};
use crate::units::Measure;

/// A share of a tank.
const SHARE: Limits = from_to(0.0, 1.0);
/// A tank's measures, m.
const MEASURE: Limits = above_zero(30.0);
/// Reads one `[[supply]]`.
pub(super) fn supply(mut table: Table<'_>, known: &Known) -> Option<SupplySection> {
    let name = table.req("name", text);
    let fuel = table.req("fuel", text);
    if let Some(fuel) = &fuel {
        by_truck(&table, fuel, known);
    }
    let tank = tank(&mut table);
    let words = &[
        ("will_call", OrdersWord::WillCall),
        ("automatic", OrdersWord::Automatic),
        ("summer_fill", OrdersWord::SummerFill),
    ];
    let orders = table.req("orders", word(words));
    let reorder_level = table.opt("reorder_level", |value| level(value, tank.as_ref()));
    let lead_days = table.opt("lead_days", whole(from_to(1.0, 90.0)));
    let cold_lead_days = table.opt("cold_lead_days", whole(from_to(1.0, 90.0)));
    sooner_in_the_cold(&table, lead_days.as_ref(), cold_lead_days.as_ref());
    let summer_fill_day = table.opt("summer_fill_day", month_day);
    let forecast_error = table.opt("forecast_error", number(from_to(0.0, 0.5)));
    let run_out_guarantee = table.opt("run_out_guarantee", flag);
    if let Some(orders) = orders.as_deref() {
        let summer = *orders == OrdersWord::SummerFill;
        goes_with(&mut table, "summer_fill_day", summer, true, "orders = \"summer_fill\"");
        let automatic = *orders == OrdersWord::Automatic;
        for key in ["forecast_error", "run_out_guarantee"] {
            goes_with(&mut table, key, automatic, false, "orders = \"automatic\"");
        }
    }
    let plan = plan(&mut table, known);
    let fees = fees(&mut table, known);
    if let (Some(tank), Some(orders)) = (&tank, &orders) {
        owned(&table, tank, orders, &fees);
        levels(&table, tank, reorder_level.as_ref());
    }
    table.done();
    Some(SupplySection {
        name: name?,
        fuel: fuel?,
        tank: tank?,
        orders: orders?,
        reorder_level,
        lead_days,
        cold_lead_days,
        summer_fill_day,
        forecast_error,
        run_out_guarantee,
        plan,
        fees,
    })
}

/// A level as a share; for one that is typed as an amount, what share of the capacity it is.
fn level(value: &DeValue<'_>, tank: Option<&TankSection>) -> Result<f64, Fault> {
    number(SHARE)(value).map_err(|fault| {
        let number = match value {
            DeValue::Integer(number) => number.as_str().parse().ok(),
            DeValue::Float(number) => number.as_str().parse().ok(),
            _ => None,
        };
        let unit = || tank.map(|tank| tank.capacity.value.unit.clone()).unwrap_or_default();
        let typed = match value {
            DeValue::String(text) => AmountText::parse(text),
            _ => number.map(|amount: f64| AmountText { amount, unit: unit() }),
        };
        // A bare number may be of either.
        let percent = number.filter(|percent| (1.0..=100.0).contains(percent));
        let percent =
            percent.map(|percent| format!(", or {} for {} %", digits(percent / 100.0), digits(percent)));
        let percent = percent.unwrap_or_default();
        let capacity = tank.map(|tank| &tank.capacity.value);
        let share = typed.zip(capacity).and_then(|(typed, capacity)| {
            let share = typed.amount / capacity.amount;
            let fits = typed.unit == capacity.unit && share <= 1.0 && typed.amount > 1.0;
            let shown = digits((share * 1000.0).round() / 1000.0);
            let (amount, unit) = (digits(typed.amount), quoted(&capacity.unit));
            let of = format!("{amount} of {} {}", digits(capacity.amount), unit.trim_matches('\''));
            fits.then(|| format!("write the share of the capacity: {shown} for {of}{percent}"))
        });
        match share {
            Some(help) => fault.help(help),
            None => fault,
        }
    })
}

fn sooner_in_the_cold(table: &Table<'_>, lead: Option<&Typed<f64>>, cold: Option<&Typed<f64>>) {
    if let (Some(lead), Some(cold)) = (lead, cold)
        && cold.value < lead.value
    {
        let what =
            format!("a truck that takes {} days does not come in {} in the cold", lead.value, cold.value);
        let help = "write the days that it takes in a cold snap, not fewer than lead_days";
        table.bad_form("cold_lead_days", &cold.span, Fault::new(what).help(help));
    }
}

fn by_truck(table: &Table<'_>, fuel: &Typed<String>, known: &Known) {
    if matches!(fuel.value.as_str(), "electricity" | "natural_gas") {
        let fault = Fault::new(format!("{} does not come by truck", quoted(fuel)));
        table.bad_form(
            "fuel",
            &fuel.span,
            fault.help("name a fuel that is delivered, or take this table out"),
        );
    } else {
        known.fuel(table, fuel);
    }
}

fn tank(table: &mut Table<'_>) -> Option<TankSection> {
    let capacity = table.req("capacity", amount);
    let fill_limit = table.opt("fill_limit", number(from_to(0.5, 1.0)));
    let reserve = table.opt("reserve", number(from_to(0.0, 0.4)));
    let start_level = table.opt("start_level", number(SHARE));
    let places = &[
        ("above_ground", PlacementWord::AboveGround),
        ("buried", PlacementWord::Buried),
        ("indoors", PlacementWord::Indoors),
    ];
    let placement = table.opt("placement", word(places));
    let diameter = table.opt("diameter", quantity::<Measure>(MEASURE));
    let length = table.opt("length", quantity::<Measure>(MEASURE));
    table.need_both("diameter", "length");
    let owner = table.opt("owner", word(&[("house", OwnerWord::House), ("supplier", OwnerWord::Supplier)]));
    let measures = diameter.zip(length);
    Some(TankSection { capacity: capacity?, fill_limit, reserve, start_level, placement, measures, owner })
}

fn plan(table: &mut Table<'_>, known: &Known) -> PlanSection {
    let money = Money { currency: &known.currency, negative: false };
    let plans = &[
        ("market", PlanWord::Market),
        ("fixed", PlanWord::Fixed),
        ("cap", PlanWord::Cap),
        ("pre_buy", PlanWord::PreBuy),
    ];
    let price_plan = table.opt("price_plan", word(plans));
    let plan_price = table.opt("plan_price", |value| money.price(value));
    let plan_amount = table.opt("plan_amount", amount);
    let left_overs =
        &[("refund", LeftOverWord::Refund), ("carry", LeftOverWord::Carry), ("lose", LeftOverWord::Lose)];
    let left_over = table.opt("left_over", word(left_overs));
    if price_plan.is_some() || !table.has("price_plan") {
        let plan = price_plan.as_deref().copied().unwrap_or(PlanWord::Market);
        let priced = plan != PlanWord::Market;
        let words = "price_plan = \"fixed\", \"cap\" or \"pre_buy\"";
        goes_with(table, "plan_price", priced, true, words);
        for key in ["plan_amount", "left_over"] {
            goes_with(table, key, plan == PlanWord::PreBuy, true, "price_plan = \"pre_buy\"");
        }
    }
    let days = &[("order", PriceDayWord::Order), ("delivery", PriceDayWord::Delivery)];
    PlanSection {
        price_plan,
        plan_price,
        plan_amount,
        left_over,
        plan_fee: table.opt("plan_fee", |value| money.price(value)),
        price_day: table.opt("price_day", word(days)),
        last_year_use: table.opt("last_year_use", amount),
        budget_plan: table.opt("budget_plan", flag),
    }
}

fn fees(table: &mut Table<'_>, known: &Known) -> FeesSection {
    let money = Money { currency: &known.currency, negative: false };
    let section = FeesSection {
        minimum_drop: table.opt("minimum_drop", amount),
        small_drop_fee: table.opt("small_drop_fee", money.each(&["drop"])),
        delivery_fee: table.opt("delivery_fee", money.each(&["drop"])),
        emergency_days: table.opt("emergency_days", whole(from_to(1.0, 30.0))),
        emergency_fee: table.opt("emergency_fee", money.each(&["drop"])),
        relight_days: table.opt("relight_days", whole(from_to(0.0, 30.0))),
        leak_test_fee: table.opt("leak_test_fee", money.each(&["test"])),
        low_use: table.opt("low_use_below", amount).zip(table.opt("low_use_fee", money.each(&["year"]))),
        rent: table.opt("rent", money.each(&["year"])),
        set_and_pick_up_fee: table.opt("set_and_pick_up_fee", money.each(&["tank"])),
        tank_years: table.opt("tank_years", number(from_to(1.0, 50.0))),
    };
    table.need_both("low_use_below", "low_use_fee");
    for (key, other) in [
        ("small_drop_fee", "minimum_drop"),
        ("emergency_fee", "emergency_days"),
        ("tank_years", "set_and_pick_up_fee"),
    ] {
        if table.has(key) && !table.has(other) {
            table.need(other);
        }
    }
    section
}

/// A key that belongs to one choice: told where it stands without it, or, if `needed`, lacks with it.
fn goes_with(table: &mut Table<'_>, key: &'static str, chosen: bool, needed: bool, choice: &str) {
    match (chosen, table.has(key)) {
        (true, false) if needed => table.need(key),
        (false, true) => {
            let span = table.value(key).map(|value| value.span()).unwrap_or_default();
            let fault = Fault::new(format!("{key} goes with {choice} only"));
            table.bad_form(key, &span, fault.help(format!("take it out, or write {choice}")));
        }
        _ => {}
    }
}

/// What the owner of the tank allows.
fn owned(table: &Table<'_>, tank: &TankSection, orders: &Typed<OrdersWord>, fees: &FeesSection) {
    let leased = tank.owner.as_deref() == Some(&OwnerWord::Supplier);
    if leased && **orders == OrdersWord::SummerFill {
        let fault = Fault::new(
            "only its owner fills a supplier's tank, so the house cannot shop for its summer fill",
        );
        let help = "write orders = \"automatic\" or \"will_call\", or owner = \"house\"";
        table.bad_form("orders", &orders.span, fault.help(help));
    }
    if let (Some(rent), false) = (&fees.rent, leased) {
        let fault = Fault::new("rent is given, but the tank is the house's own");
        table.bad_form("rent", &rent.span, fault.help("write owner = \"supplier\", or take the rent out"));
    }
}

/// Levels lie between what cannot be used and what is filled in, as far as both are typed.
fn levels(table: &Table<'_>, tank: &TankSection, reorder: Option<&Typed<f64>>) {
    let kept = |key: &str, level: Option<&Typed<f64>>| {
        let Some(level) = level else { return };
        let below = tank.reserve.as_ref().filter(|reserve| level.value < reserve.value);
        let above = tank.fill_limit.as_ref().filter(|limit| level.value > limit.value);
        if let Some(bound) = below.or(above) {
            let (side, name) = if below.is_some() { ("below", "reserve") } else { ("above", "fill_limit") };
            let what = format!("{key}, {}, lies {side} the {name}, {}", level.value, bound.value);
            let fault = Fault::new(what).allowed("from reserve to fill_limit");
            table.bad_form(key, &level.span, fault.help("see which of the two is wrong, and correct it"));
        }
    };
    kept("reorder_level", reorder);
    kept("start_level", tank.start_level.as_ref());
}

//! Words for what a store of a delivered fuel brings with it.
//!
//! Start at [`charge`].

use super::figures::{MONTHS, Measure, grouped, money};
use crate::calendar::MonthDay;
use crate::comparison::note::{CLOUDS_F, StoreNote};
use crate::supply::charge::Charge;
use crate::supply::contract::{Contract, LeftOver, Orders, PricePlan};

/// Why something is due, in words.
pub fn charge(charge: Charge) -> String {
    match charge {
        Charge::Delivered => "delivered".into(),
        Charge::StockChange => "taken out of the store, at the mean price paid".into(),
        Charge::Drop => "for a delivery".into(),
        Charge::SmallDrop => "for a delivery below the least amount".into(),
        Charge::Emergency => "for an emergency delivery".into(),
        Charge::LeakTest => "leak test after a run-out".into(),
        Charge::LowUse => "for a year of little use".into(),
        Charge::PricePlan => "for the price plan".into(),
        Charge::PreBoughtLost => "pre-bought and lost".into(),
        Charge::Rent => "for the tank".into(),
        Charge::SetAndPickUp(years) => format!("setting and fetching the tank, spread over {years} years"),
        Charge::StartingLevels(count) => {
            format!("so that the year's cost is the mean over {count} levels at its start")
        }
    }
}

/// The unit of what is due, where it is no fuel.
pub fn unit(charge: Charge) -> &'static str {
    match charge {
        Charge::Drop | Charge::SmallDrop | Charge::Emergency => "drop",
        Charge::LeakTest => "test",
        _ => "year",
    }
}

/// Who orders and at what price, in a few words.
pub fn terms(contract: &Contract) -> String {
    let orders = match contract.orders {
        Orders::WillCall => "will-call".to_owned(),
        Orders::Automatic { guarantee: true, .. } => "automatic, run-outs guaranteed".to_owned(),
        Orders::Automatic { .. } => "automatic".to_owned(),
        Orders::SummerFill { on } => format!("summer fill on {}", date(on)),
    };
    let price = match contract.price {
        PricePlan::Market => "price of the day",
        PricePlan::Fixed(_) => "fixed price",
        PricePlan::Cap(_) => "capped price",
        PricePlan::PreBuy { left_over: LeftOver::Refund, .. } => "pre-bought, left-over refunded",
        PricePlan::PreBuy { left_over: LeftOver::Carry, .. } => "pre-bought, left-over carried",
        PricePlan::PreBuy { left_over: LeftOver::Lose, .. } => "pre-bought, left-over lost",
    };
    let budget = if contract.budget_plan { ", in twelve payments" } else { "" };
    format!("{orders}, {price}{budget}")
}

/// Where the leads of ordinary terms come from.
pub fn ordinary_leads() -> String {
    let usual = |orders: Orders| {
        let (lead, cold) = orders.usual_lead_days();
        format!("{lead} and {cold}")
    };
    format!(
        "Days from order to truck, in an ordinary winter and in its coldest ten days: as the job has them for such \
         orders, else {} with automatic delivery, {} without (common practice; the second a judgement).",
        usual(Orders::Automatic { forecast_error: 0.0, guarantee: false }),
        usual(Orders::WillCall)
    )
}

/// The same with the days that the truck takes.
pub fn terms_and_lead(contract: &Contract) -> String {
    let (lead, cold) = (contract.lead_days, contract.cold_lead_days.max(contract.lead_days));
    format!("{}, truck in {lead} to {cold} days", terms(contract))
}

/// What a reader must know of a store, in words.
pub fn note(option: &str, store: &str, what: &StoreNote, measure: Measure, currency: &str) -> String {
    let whose = format!("{store} of \u{201c}{option}\u{201d}");
    let power = |kw: f64| format!("{} {}", grouped(measure.power(kw), 0), measure.power_unit());
    match what {
        StoreNote::RanDry { times, hours, first } => format!(
            "{whose} RUNS DRY: {} in this year, first on {}, {} hours without fuel until it is filled and lit \
             again.",
            if *times == 1 { "once".into() } else { format!("{times} times") },
            date(*first),
            grouped(*hours, 0)
        ),
        StoreNote::ShortOfVapour { hours } => format!(
            "{whose}: in {} hours less propane boils off than is wanted. A larger or a buried tank, or one \
             kept fuller, gives more.",
            grouped(*hours as f64, 0)
        ),
        StoreNote::AsksMoreThanBoilsOff { asked_kw, gives_kw } => format!(
            "{whose}: everything that burns from it asks {} at once; at the design temperature and the level at \
             which it is ordered, {} boils off. Ask the supplier.",
            power(*asked_kw),
            power(*gives_kw)
        ),
        StoreNote::OrderedLate { lasts_days, lead_days, longest_lead } => format!(
            "PLEASE CHECK reorder_level of {whose}: ordered in deep cold it lasts {} days; {}. Order sooner, or \
             have more room for fuel.",
            grouped(lasts_days.floor(), 0),
            truck_takes((*lead_days, *longest_lead), *lasts_days)
        ),
        StoreNote::NoRoomForDrop { asked, room_at } => format!(
            "PLEASE CHECK minimum_drop of {whose}: nothing is ordered above {} % of its capacity, though \
             reorder_level asks for {} %, since the least delivery finds no room before. Ask for smaller \
             deliveries, or name the small_drop_fee at which the supplier comes for less.",
            grouped(100.0 * room_at, 0),
            grouped(100.0 * asked, 0)
        ),
        StoreNote::MayCloud { hours } => format!(
            "{whose}: No. 2 oil clouds at {} to {} outdoors and can stop in its line or filter; {} hours of this \
             year are colder. Put tank and line indoors or in the ground, or have oil No. 1 or a winter blend \
             brought.",
            measure.fahrenheit_words(CLOUDS_F.0),
            measure.fahrenheit_words(CLOUDS_F.1),
            grouped(*hours as f64, 0)
        ),
        StoreNote::PricePlan { costs_more, ordinary } => {
            format!("{whose}: {}", beside_price_of_day(*costs_more, ordinary, currency))
        }
        StoreNote::TwelveParts { each } => {
            format!("{whose} is paid in twelve equal parts of about {} each.", money(currency, *each))
        }
    }
}

/// What a price plan costs against the price of the day, to the nearest ten.
fn beside_price_of_day(costs_more: f64, ordinary: &Contract, currency: &str) -> String {
    let rounded = (costs_more / 10.0).round() * 10.0;
    let amount = money(currency, rounded.abs());
    let than = match rounded {
        0.0 => "about the same as".into(),
        more if more > 0.0 => format!("about {amount} more than"),
        _ => format!("about {amount} less than"),
    };
    format!(
        "in this year its price plan costs {than} the best ordinary terms ({}). A plan guards against prices above \
         this year's; `winterledger winters` draws them.",
        terms(ordinary)
    )
}

/// How long the truck takes, and whether what is left outlasts it.
pub fn truck_words(contract: &Contract, left_days: f64) -> String {
    truck_takes((contract.lead_days, contract.longest_stated_lead()), left_days)
}

fn truck_takes((lead, cold): (usize, usize), left_days: f64) -> String {
    let snap = if cold > lead { format!(", in a cold snap\u{a0}{cold}") } else { String::new() };
    let dry = if left_days < lead.max(cold) as f64 { ": if it comes so late, it runs dry" } else { "" };
    let days = if lead == 1 { "day" } else { "days" };
    format!("the truck takes {lead} {days}{snap}{dry}")
}

/// A date, for example `9 Jan`.
pub fn date(date: MonthDay) -> String {
    let month = usize::from(date.month).checked_sub(1).and_then(|m| MONTHS.get(m)).copied();
    format!("{} {}", date.day, month.unwrap_or_default())
}

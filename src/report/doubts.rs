//! Amounts, hours and degrees that hardly anybody means, in words.
//!
//! Start at [`doubt`].

use super::figures::{Measure, as_typed, grouped, two_digits};
use crate::comparison::doubt::{Doubt, HouseholdUse};
use crate::units::{GALLONS_PER_LITRE, UnitSystem};

/// One such thing as a sentence that says what to look at.
pub fn doubt(found: &Doubt, measure: Measure, currency: &str) -> String {
    let degrees = |celsius: &f64| measure.temperature_words(*celsius);
    let money = |amount: f64| format!("{} {currency}", two_digits(amount, 0));
    match found {
        Doubt::BackupKeptOff { option, zone, machine, lockout_c, share } => format!(
            "PLEASE CHECK lockout_above of {machine}: in \u{201c}{option}\u{201d}, {zone}, it keeps them off warmer than {}, \
             where the others give only {} % of what is needed, so the rooms go cold. It belongs where the others carry the \
             house alone, ordinarily at 30 to 45 °F (\u{2212}1 to 7 °C).",
            degrees(lockout_c),
            grouped((100.0 * share).floor(), 0)
        ),
        Doubt::DearPart { what, amount } => format!(
            "PLEASE CHECK the cost of “{what}”: {} is more than parts of a house\u{2019}s heating come to. Is a digit too \
             many?",
            money(*amount)
        ),
        Doubt::CheapOption { option, amount } => format!(
            "PLEASE CHECK the costs of “{option}”: {} in all is less than such machines come to. Is a digit missing?",
            money(*amount)
        ),
        Doubt::OtherRenewal { what, amount, renewal } => format!(
            "PLEASE CHECK amount and renewal of “{what}”: it costs {}, but {} when it is bought again. Is a digit of one \
             wrong?",
            money(*amount),
            money(*renewal)
        ),
        Doubt::DearUpkeep { option, yearly } => format!(
            "PLEASE CHECK upkeep of “{option}”: {} a year, where looking after such machines ordinarily comes to 150 to \
             500. Is a digit too many, or is it the whole job?",
            money(*yearly)
        ),
        Doubt::DearCharge { .. } | Doubt::OddPlanPrice { .. } => of_charge(found, currency),
        Doubt::DeepExtremeLow { extreme_low_c, coldest_c } => format!(
            "PLEASE CHECK extreme_low: {} is far colder than {}, the coldest of this weather\u{2019}s hours and the design \
             temperatures. Once in twenty years it is ordinarily 9 to 22 °F (5 to 12 K) colder. Is the unit right, and the \
             weather of this place?",
            degrees(extreme_low_c),
            degrees(coldest_c)
        ),
        Doubt::SummerInJanuary { january_c, july_c } => {
            summer_in_january(&degrees(january_c), &degrees(july_c))
        }
        Doubt::NoDaylightSaving { zone, meant } => no_daylight_saving(zone, meant),
        Doubt::LargeUse { of, amount } => large_use(*of, *amount, measure),
        Doubt::LongSetBack { .. } | Doubt::LongDearPeriod { .. } | Doubt::PeriodOfWholeDay { .. } => {
            of_hours(found)
        }
        Doubt::UseWithoutMachine { amount, machine, options, all } => {
            use_without_machine(amount, machine, options, *all)
        }
        Doubt::CoolingBalanceAboveIndoors { .. }
        | Doubt::OddCoolingSetPoint { .. }
        | Doubt::CoolingOfAnotherPlace { .. } => of_cooling(found, measure),
    }
}

fn of_hours(found: &Doubt) -> String {
    match found {
        Doubt::LongSetBack { zone, span: (from, to), hours } => format!(
            "PLEASE CHECK set_back of {zone}: from {from} to {to} are {} hours, so that the rooms are set back for most of \
             the day. Are the two exchanged, or is it am for pm?",
            hours_words(*hours)
        ),
        Doubt::LongDearPeriod { fuel, period, span: (from, to), hours } => format!(
            "PLEASE CHECK the period “{period}” of {fuel}: from {from} to {to} are {} hours, and dearer than the rest. Are \
             the two exchanged?",
            hours_words(*hours)
        ),
        Doubt::PeriodOfWholeDay { fuel, period, at } => format!(
            "PLEASE CHECK the period “{period}” of {fuel}: from {at} to {at} is the whole day. Is that meant (then write \
             \"00:00\" to \"00:00\"), or is one of the hours wrong?"
        ),
        _ => String::new(),
    }
}

fn of_charge(found: &Doubt, currency: &str) -> String {
    match found {
        Doubt::DearCharge { key, whose, amount, most, per } => format!(
            "PLEASE CHECK {key} of {whose}: {} {currency}/{per} is more than is ordinarily asked, {} at most. Is a digit too \
             many, or the unit wrong?",
            as_typed(*amount),
            two_digits(*most, if most.fract() == 0.0 { 0 } else { 2 })
        ),
        Doubt::OddPlanPrice { store, fuel, amount, per } => format!(
            "PLEASE CHECK plan_price of {store}: {} {currency}/{per} is far from what {fuel} ordinarily costs. Is a digit \
             wrong, or the unit?",
            as_typed(*amount)
        ),
        _ => String::new(),
    }
}

fn of_cooling(found: &Doubt, measure: Measure) -> String {
    let degrees = |celsius: &f64| measure.temperature_words(*celsius);
    match found {
        Doubt::CoolingBalanceAboveIndoors { zone, balance_c, set_point_c } => format!(
            "PLEASE CHECK cooling_balance_temperature of {zone}: {} outdoors is warmer than the {} that cooling keeps indoors. \
             Sun, people and machines ask for cooling earlier, ordinarily from 62 to 72 °F (17 to 22 °C) outdoors.",
            degrees(balance_c),
            degrees(set_point_c)
        ),
        Doubt::OddCoolingSetPoint { zone, set_point_c } => format!(
            "PLEASE CHECK cooling_set_point of {zone}: {}. Houses are ordinarily cooled to 72 to 80 °F (22 to 27 °C).",
            degrees(set_point_c)
        ),
        Doubt::CoolingOfAnotherPlace { zone, design_c, weather_c } => format!(
            "PLEASE CHECK cooling_design_temperature of {zone}: {}, but in this weather it is warmer than {} in 1 % of the \
             hours. Is the weather of another place, or a digit wrong?",
            degrees(design_c),
            degrees(weather_c)
        ),
        _ => String::new(),
    }
}

fn large_use(of: HouseholdUse, amount: f64, measure: Measure) -> String {
    match of {
        HouseholdUse::BaseElectricity => format!(
            "PLEASE CHECK base_electricity: {} kWh a year, where houses ordinarily use 2,000 to 12,000 beside heating and \
             cooling. Is a digit too many?",
            grouped(amount, 0)
        ),
        HouseholdUse::HotWater => format!(
            "PLEASE CHECK hot_water_use: {} a day, where people ordinarily use 15 to 25 gal (60 to 95 L) each. Is a digit too \
             many?",
            match measure.0 {
                UnitSystem::Us => format!("{} gal", grouped(amount, 0)),
                UnitSystem::Si => format!("{} L", grouped(amount / GALLONS_PER_LITRE, 0)),
            }
        ),
        HouseholdUse::Dryer => format!(
            "PLEASE CHECK dryer_loads_a_week: {}, where families ordinarily have 4 to 8. Is it the number for a month?",
            grouped(amount, 0)
        ),
    }
}

fn use_without_machine(amount: &str, machine: &str, options: &[String], all: bool) -> String {
    let quoted: Vec<String> = options.iter().map(|name| format!("\u{201c}{name}\u{201d}")).collect();
    let (who, there) = match (all, quoted.as_slice()) {
        (true, _) => ("no option names".to_owned(), "in any of them"),
        (false, [one]) => (format!("{one} does not name"), "there"),
        (false, many) => (format!("{} do not name", many.join(", ")), "there"),
    };
    format!(
        "PLEASE CHECK {amount}: it is given, but {who} a machine for it, so it costs nothing {there}. Name one with {machine}, \
         in [household] for all options or in each option, or take {amount} out."
    )
}

fn summer_in_january(january: &str, july: &str) -> String {
    format!(
        "PLEASE CHECK monthly_highs and monthly_lows: the first month\u{2019}s mean is {}, the seventh\u{2019}s {}. Do \
             the lists begin with January? South of the equator give the time_zone.",
        january, july
    )
}

fn no_daylight_saving(zone: &str, meant: &str) -> String {
    format!(
        "PLEASE CHECK time_zone: {zone} has no daylight saving, so set-backs and prices by the hour are an hour off in \
         summer where clocks change. Is it {meant}?"
    )
}

fn hours_words(hours: f64) -> String {
    grouped(hours, if hours.fract() == 0.0 { 0 } else { 1 })
}

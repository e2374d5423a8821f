//! Amounts of money, of the household, of hours and of degrees that hardly anybody means: a digit too many or too
//! few, two times or temperatures exchanged.
//!
//! Only remarks; each bound says where it comes from. Start at `doubts`.

use super::doubt::{Doubt, HouseholdUse};
use super::plausible::CURRENCIES;
use super::{Parts, RunWeather};
use crate::coldnight::carried::carried;
use crate::equipment::MachineKind;
use crate::job::{
    ClockTime, CostSection, HoursSection, HouseholdMachines, Job, PriceSection, RateSection, Typed,
    WeatherSection, ZoneSection,
};
use crate::simulation::design::OptionDesign;
use crate::units::{GALLONS_PER_LITRE, Quantity, Temperature, fahrenheit_to_celsius};
use crate::weather::statistics::{coldest_hour, percentile};
use std::ops::RangeInclusive;

/// Backup kept off where the others give less of what is needed: it is there for those very hours. A little less may be
/// meant, as the room only cools by a degree or two in an hour.
const CARRIED_WITHOUT: f64 = 0.9;
/// Just warmer than a lock-out, K.
const JUST_WARMER_K: f64 = 0.01;
/// A part that costs more, currency: ground loops of large houses come to some 60,000 (from memory).
const DEAR_PART: f64 = 75_000.0;
/// All parts of an option with a heat pump, furnace or boiler, currency: the smallest head alone, fitted by its owner,
/// comes to more (from memory).
const CHEAP_OPTION: f64 = 1_000.0;
/// What a part costs again over what it cost at first: a loop stays in the ground, and prices are today's.
const RENEWAL: RangeInclusive<f64> = 0.1..=2.5;
/// Yearly upkeep, currency: service contracts come to 150 to 500 a machine (from memory).
const UPKEEP: f64 = 1_000.0;
/// A 20-year low lies 5 to 12 K below the coldest hour of a typical year: Chicago's worst night ever (1985, −27 °F; from
/// memory) 10 K below that of its typical year, and of 23 winters of a
/// reanalysis of eastern France the coldest falls 2.3 K below the middle one.
const EXTREME_BELOW_K: f64 = 15.0;
/// Thermostats are set from about 68 to 82 °F for cooling.
const COOLING_SET_POINT_F: RangeInclusive<f64> = 65.0..=84.0;
/// A cooling design temperature further than this from what the weather is warmer than in 1 % of its hours is of another
/// place, K: as for heating.
const COOLING_FROM_WEATHER_K: f64 = 8.0;
/// A set-back of a whole night is 8 to 12 hours, of a shop 14.
const SET_BACK_H: f64 = 16.0;
/// The dear hours of a day are 2 to 12 of them, at most from 7 to 23.
const DEAR_HOURS: f64 = 16.0;
/// kWh a year beside heating, cooling, hot water, drying and cooking; houses have 2,000 to 12,000 (from memory).
const BASE_ELECTRICITY: f64 = 35_000.0;
/// Gallons a day: 15 to 25 a head (common practice).
const HOT_WATER_GAL: f64 = 200.0;
/// Loads a week: families have 4 to 8 (common practice).
const DRYER_LOADS: f64 = 25.0;
/// So that rounding in another unit is no question, K.
const ALIKE_K: f64 = 0.01;
/// So much warmer than July, January is summer, K.
const SUMMER_IN_JANUARY_K: f64 = 3.0;

/// Every such thing of the job.
pub(super) fn doubts(job: &Job, parts: &Parts, weather: &RunWeather) -> Vec<Doubt> {
    let mut found: Vec<Doubt> = parts.designs.iter().flat_map(|design| kept_off(design, parts)).collect();
    if CURRENCIES.contains(&job.job.currency.value.as_str()) {
        found.extend(costs(job, parts));
    }
    found.extend(deep_extreme_low(job, parts, weather));
    found.extend(job.house.zone.iter().flat_map(|zone| cooling(zone, weather)));
    found.extend(job.house.zone.iter().flat_map(set_backs));
    for (fuel, prices) in &job.prices.fuels {
        found.extend(periods(fuel, &prices.rate));
        found.extend(prices.heating.iter().flat_map(|heating| periods(fuel, &heating.value.rate)));
    }
    found.extend(household(job));
    found.extend(uses_without_machine(job));
    found.extend(summer_in_january(job, parts));
    found.extend(job.site.time_zone.as_ref().and_then(|zone| no_daylight_saving(&zone.value)));
    found
}

/// Backup whose own lock-out leaves a zone cold just above it.
fn kept_off(design: &OptionDesign, parts: &Parts) -> Vec<Doubt> {
    let zones = parts.zones.iter().zip(&design.zones);
    let found = zones.flat_map(|(zone, d)| {
        d.heaters.iter().skip(1).filter_map(move |i| {
            let machine = parts.machines.get(*i)?;
            let lockout_c = machine.heating.as_ref()?.lockout_above_c?;
            let share = carried(zone, d, &parts.machines, lockout_c + JUST_WARMER_K).share();
            (share < CARRIED_WITHOUT).then(|| Doubt::BackupKeptOff {
                option: design.name.clone(),
                zone: zone.name.clone(),
                machine: machine.name.clone(),
                lockout_c,
                share,
            })
        })
    });
    found.collect()
}

fn costs(job: &Job, parts: &Parts) -> Vec<Doubt> {
    let mut found: Vec<Doubt> =
        job.options.iter().flat_map(|option| option.costs.cost.iter().flat_map(part)).collect();
    for (option, design) in job.options.iter().zip(&parts.designs) {
        let amount: f64 = option.costs.cost.iter().map(|part| part.amount.value).sum();
        let mut heaters = design.zones.iter().flat_map(|zone| &zone.heaters);
        let central = heaters.any(|i| {
            let kind = parts.machines.get(*i).map(|machine| machine.kind);
            matches!(kind, Some(MachineKind::HeatPump | MachineKind::Furnace | MachineKind::Boiler))
        });
        let option_name = || option.name.value.clone();
        if central && amount > 0.0 && amount < CHEAP_OPTION {
            found.push(Doubt::CheapOption { option: option_name(), amount });
        }
        let yearly = option.costs.upkeep.as_ref().map(|upkeep| match upkeep.per.as_str() {
            "month" => 12.0 * upkeep.amount,
            _ => upkeep.amount,
        });
        let dear = yearly.filter(|yearly| *yearly > UPKEEP);
        found.extend(dear.map(|yearly| Doubt::DearUpkeep { option: option_name(), yearly }));
    }
    found
}

fn part(part: &CostSection) -> Option<Doubt> {
    let (what, amount) = (part.what.value.clone(), part.amount.value);
    let renewal = part.renewal.as_ref().map(|renewal| renewal.value);
    match renewal.filter(|renewal| amount > 0.0 && *renewal > 0.0 && !RENEWAL.contains(&(renewal / amount))) {
        Some(renewal) => Some(Doubt::OtherRenewal { what, amount, renewal }),
        None => (amount > DEAR_PART).then_some(Doubt::DearPart { what, amount }),
    }
}

fn deep_extreme_low(job: &Job, parts: &Parts, weather: &RunWeather) -> Option<Doubt> {
    let extreme_low_c = job.site.extreme_low.as_ref()?.value.base();
    let RunWeather::Year(year) = weather else { return None };
    let hour_c = coldest_hour(&year.columns.dry_bulb_c)?.temperature_c;
    let record_c =
        parts.winters.as_ref().and_then(|winters| winters.extremes.as_ref()).map(|of| of.coldest_c);
    let designs = parts.zones.iter().map(|zone| zone.design_temperature_c);
    let coldest_c = designs.chain(record_c).fold(hour_c, f64::min);
    (extreme_low_c < coldest_c - EXTREME_BELOW_K - ALIKE_K)
        .then_some(Doubt::DeepExtremeLow { extreme_low_c, coldest_c })
}

fn cooling(zone: &ZoneSection, weather: &RunWeather) -> Vec<Doubt> {
    let Some(section) = &zone.cooling else { return Vec::new() };
    let name = || zone.name.value.clone();
    let base = |typed: &Typed<Temperature>| typed.value.base();
    let (set_point_c, balance_c) =
        (base(&section.cooling_set_point), base(&section.cooling_balance_temperature));
    let design_c = base(&section.cooling_design_temperature);
    let (least_c, most_c) = (
        fahrenheit_to_celsius(*COOLING_SET_POINT_F.start()),
        fahrenheit_to_celsius(*COOLING_SET_POINT_F.end()),
    );
    let odd = set_point_c < least_c - ALIKE_K || set_point_c > most_c + ALIKE_K;
    let above = balance_c > set_point_c + ALIKE_K;
    let weather_c = match weather {
        RunWeather::Year(year) => percentile(&year.columns.dry_bulb_c, 0.99),
        RunWeather::Bins(_) => None,
    };
    let far = weather_c.filter(|weather_c| (design_c - weather_c).abs() > COOLING_FROM_WEATHER_K);
    [
        odd.then(|| Doubt::OddCoolingSetPoint { zone: name(), set_point_c }),
        above.then(|| Doubt::CoolingBalanceAboveIndoors { zone: name(), balance_c, set_point_c }),
        far.map(|weather_c| Doubt::CoolingOfAnotherPlace { zone: name(), design_c, weather_c }),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn set_backs(zone: &ZoneSection) -> Vec<Doubt> {
    let long = zone.set_back.iter().filter_map(|entry| {
        let span = (entry.from.value, entry.to.value);
        let hours = hours_of(span);
        (hours > SET_BACK_H).then(|| Doubt::LongSetBack { zone: zone.name.value.clone(), span, hours })
    });
    long.collect()
}

/// Hours from one time on the wall to the other, over midnight where need be.
fn hours_of((from, to): (ClockTime, ClockTime)) -> f64 {
    let hour = |time: ClockTime| f64::from(time.hour) + f64::from(time.minute) / 60.0;
    (hour(to) - hour(from)).rem_euclid(24.0)
}

fn periods(fuel: &Typed<String>, rate: &RateSection) -> Vec<Doubt> {
    let seasons = rate.season.iter().map(|season| &season.hours);
    let of = |hours| whole_days_of(fuel, hours).into_iter().chain(dear_periods_of(fuel, hours));
    rate.rest.iter().chain(seasons).flat_map(of).collect()
}

/// Periods from an hour to the same hour, which is the whole day; from midnight to midnight it is meant.
fn whole_days_of(fuel: &Typed<String>, hours: &HoursSection) -> Vec<Doubt> {
    let whole = hours.period.iter().filter_map(|period| {
        let at = period.when.from.value;
        (at == period.when.to.value && (at.hour, at.minute) != (0, 0)).then(|| Doubt::PeriodOfWholeDay {
            fuel: fuel.value.clone(),
            period: period.name.value.clone(),
            at,
        })
    });
    whole.collect()
}

fn dear_periods_of(fuel: &Typed<String>, hours: &HoursSection) -> Vec<Doubt> {
    let Some(rest) = hours.rest.as_ref().and_then(flat) else { return Vec::new() };
    let long = hours.period.iter().filter_map(|period| {
        let span = (period.when.from.value, period.when.to.value);
        let hours = hours_of(span);
        let dear = flat(&period.price).is_some_and(|price| price > rest);
        (dear && hours > DEAR_HOURS).then(|| Doubt::LongDearPeriod {
            fuel: fuel.value.clone(),
            period: period.name.value.clone(),
            span,
            hours,
        })
    });
    long.collect()
}

fn flat(price: &PriceSection) -> Option<f64> {
    if let PriceSection::Flat(price) = price { Some(price.value.amount) } else { None }
}

fn household(job: &Job) -> Vec<Doubt> {
    let household = &job.household;
    let uses = [
        (
            HouseholdUse::BaseElectricity,
            household.base_electricity.as_ref().map(|use_| use_.value.base()),
            BASE_ELECTRICITY,
        ),
        (
            HouseholdUse::HotWater,
            household.hot_water_use.as_ref().map(|use_| use_.value.base() * GALLONS_PER_LITRE),
            HOT_WATER_GAL,
        ),
        (HouseholdUse::Dryer, household.dryer_loads_a_week.as_ref().map(|loads| loads.value), DRYER_LOADS),
    ];
    let large = uses.into_iter().filter_map(|(of, amount, most)| {
        let amount = amount.filter(|amount| *amount > most * (1.0 + 1e-6))?;
        Some(Doubt::LargeUse { of, amount })
    });
    large.collect()
}

/// Uses that have an ordinary amount, but in some option no machine, so that they cost nothing there.
fn uses_without_machine(job: &Job) -> Vec<Doubt> {
    let (household, machines) = (&job.household, &job.household.machines);
    let hot_water = household.hot_water_use.as_ref().map(|use_| use_.value.base() * GALLONS_PER_LITRE);
    let loads = household.dryer_loads_a_week.as_ref().map(|loads| loads.value);
    let cooking = household.cooking.as_ref().map(|use_| use_.value.base());
    let lacking = |has: fn(&HouseholdMachines) -> bool| -> Vec<String> {
        let without = job.options.iter().filter(|option| !has(machines) && !has(&option.household));
        without.map(|option| option.name.value.clone()).collect()
    };
    let uses = [
        ("hot_water_use", "hot_water", hot_water, HOT_WATER_GAL, lacking(|m| m.hot_water.is_some())),
        ("dryer_loads_a_week", "dryer", loads, DRYER_LOADS, lacking(|m| m.dryer.is_some())),
        ("cooking", "range", cooking, f64::INFINITY, lacking(|m| m.range.is_some())),
    ];
    let asked = uses.into_iter().filter_map(|(amount, machine, typed, most, options)| {
        // An amount that is asked about anyway is not asked about twice.
        typed.filter(|typed| *typed > 0.0 && *typed <= most)?;
        let all = options.len() == job.options.len();
        (!options.is_empty()).then_some(Doubt::UseWithoutMachine { amount, machine, options, all })
    });
    asked.collect()
}

/// Names of standard time alone, where nearly all clocks have summer time.
fn no_daylight_saving(zone: &str) -> Option<Doubt> {
    let meant = match zone {
        "EST" => "America/New_York",
        "MST" => "America/Denver",
        _ => return None,
    };
    Some(Doubt::NoDaylightSaving { zone: zone.to_owned(), meant })
}

/// Monthly lists that begin in summer, but for places whose clock says that January is summer there.
fn summer_in_january(job: &Job, parts: &Parts) -> Option<Doubt> {
    let WeatherSection::Monthly(monthly) = &job.site.weather else { return None };
    let mean = |month: usize| {
        let of = |months: &[Typed<Temperature>; 12]| months.get(month).map(|t| t.value.base());
        Some((of(&monthly.monthly_highs.value)? + of(&monthly.monthly_lows.value)?) / 2.0)
    };
    let (january_c, july_c) = (mean(0)?, mean(6)?);
    let south = ["Australia/", "Antarctica/", "America/Argentina/"];
    let more = ["Pacific/Auckland", "America/Santiago", "America/Punta_Arenas", "Africa/Johannesburg"];
    let clock = parts.site.zone.map_or("", |zone| zone.name());
    let southern = south.iter().any(|start| clock.starts_with(start)) || more.contains(&clock);
    (january_c > july_c + SUMMER_IN_JANUARY_K && !southern)
        .then_some(Doubt::SummerInJanuary { january_c, july_c })
}

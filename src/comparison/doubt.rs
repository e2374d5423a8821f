//! Amounts of money, of the household, of hours and of degrees that hardly anybody means.
//!
//! What they are, not how they are found: that is `doubtful`. Start at [`Doubt`].

use crate::job::ClockTime;

/// Something that is seldom so.
#[derive(Debug, Clone, PartialEq)]
pub enum Doubt {
    /// Backup heat that its lock-out keeps off where it is needed.
    BackupKeptOff {
        /// The option's name.
        option: String,
        /// The zone's name.
        zone: String,
        /// The backup's name.
        machine: String,
        /// Its lock-out, °C.
        lockout_c: f64,
        /// What the others give there of what is needed.
        share: f64,
    },
    /// A part far dearer than any of a house.
    DearPart {
        /// What it is.
        what: String,
        /// What it costs, currency.
        amount: f64,
    },
    /// An option whose parts cost next to nothing.
    CheapOption {
        /// The option's name.
        option: String,
        /// All its parts, currency.
        amount: f64,
    },
    /// A part that costs quite another amount the second time.
    OtherRenewal {
        /// What it is.
        what: String,
        /// What it costs, currency.
        amount: f64,
        /// What it costs again, currency.
        renewal: f64,
    },
    /// Upkeep beyond what service costs.
    DearUpkeep {
        /// The option's name.
        option: String,
        /// A year's, currency.
        yearly: f64,
    },
    /// A charge beside the price of energy, far above what any supplier asks.
    DearCharge {
        /// Its key, or the words for it.
        key: String,
        /// The fuel's or the store's name.
        whose: String,
        /// What it is, currency.
        amount: f64,
        /// What it ordinarily is at most, currency.
        most: f64,
        /// What both are for: `kWh`, `kW`, `drop`.
        per: String,
    },
    /// The price of a supplier's plan, far from what the fuel costs.
    OddPlanPrice {
        /// The store's name.
        store: String,
        /// The fuel's name.
        fuel: String,
        /// What it is, currency.
        amount: f64,
        /// What it is for.
        per: String,
    },
    /// A night to plan for far colder than the weather.
    DeepExtremeLow {
        /// What the job gives, °C.
        extreme_low_c: f64,
        /// The weather's coldest hour, or a design temperature colder than that, °C.
        coldest_c: f64,
    },
    /// A room that needs cooling only when it is warmer outdoors than in.
    CoolingBalanceAboveIndoors {
        /// The zone's name.
        zone: String,
        /// Its cooling balance temperature, °C.
        balance_c: f64,
        /// Its cooling set point, °C.
        set_point_c: f64,
    },
    /// A cooling set point that nobody likes.
    OddCoolingSetPoint {
        /// The zone's name.
        zone: String,
        /// °C.
        set_point_c: f64,
    },
    /// A cooling design temperature far from what the weather has.
    CoolingOfAnotherPlace {
        /// The zone's name.
        zone: String,
        /// What the job gives, °C.
        design_c: f64,
        /// What the weather is warmer than in 1 % of its hours, °C.
        weather_c: f64,
    },
    /// A set-back for most of the day.
    LongSetBack {
        /// The zone's name.
        zone: String,
        /// Its first and last minute on the wall.
        span: (ClockTime, ClockTime),
        /// Hours of it.
        hours: f64,
    },
    /// A dear period for most of the day.
    LongDearPeriod {
        /// The fuel's id.
        fuel: String,
        /// The period's name.
        period: String,
        /// Its first and last minute on the wall.
        span: (ClockTime, ClockTime),
        /// Hours of it.
        hours: f64,
    },
    /// A period that ends at the hour at which it begins.
    PeriodOfWholeDay {
        /// The fuel's id.
        fuel: String,
        /// The period's name.
        period: String,
        /// The hour.
        at: ClockTime,
    },
    /// Something is used, but options name no machine for it.
    UseWithoutMachine {
        /// The key of the amount.
        amount: &'static str,
        /// The key that would name the machine.
        machine: &'static str,
        /// The names of those options.
        options: Vec<String>,
        /// Whether those are all options of the job.
        all: bool,
    },
    /// More of something in the household than families use.
    LargeUse {
        /// Of what, and how much at most.
        of: HouseholdUse,
        /// How much; kWh a year, gallons a day or loads a week.
        amount: f64,
    },
    /// A clock that never changes, of places where clocks do.
    NoDaylightSaving {
        /// The zone as typed.
        zone: String,
        /// The clock that may be meant.
        meant: &'static str,
    },
    /// Months whose winter is in July.
    SummerInJanuary {
        /// The first month's mean, °C.
        january_c: f64,
        /// The seventh's, °C.
        july_c: f64,
    },
}

/// Something that a household uses.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HouseholdUse {
    /// `base_electricity`, kWh a year.
    BaseElectricity,
    /// `hot_water_use`, gallons a day.
    HotWater,
    /// `dryer_loads_a_week`.
    Dryer,
}

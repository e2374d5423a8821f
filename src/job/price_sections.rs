//! The `[prices]` table as typed; field names are the keys.
//!
//! Must never know what a fuel is or what an option costs. Start at [`PricesSection`].

use super::money::{AmountText, PriceText};
use super::typed::{ClockTime, Typed};
use crate::calendar::MonthDay;
use crate::sources::HowKnown;

/// The `[prices]` table: one table a fuel.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PricesSection {
    /// The fuel's id as typed (its key), and its prices, in the order of the text.
    pub fuels: Vec<(Typed<String>, FuelPriceSection)>,
}

impl PricesSection {
    /// The prices of the fuel with that id.
    pub fn fuel(&self, id: &str) -> Option<&FuelPriceSection> {
        self.fuels.iter().find(|(name, _)| name.value == id).map(|(_, prices)| prices)
    }
}

/// The prices of one fuel.
#[derive(Debug, Clone, PartialEq)]
pub struct FuelPriceSection {
    /// What is charged for energy, and each month.
    pub rate: RateSection,
    /// `demand`: for each kW of the month's largest hour.
    pub demand: Option<Typed<PriceText>>,
    /// `rider`: named charges on energy.
    pub rider: Vec<RiderSection>,
    /// `tax`: share of everything on the bill, 0 to 0.5.
    pub tax: Option<Typed<f64>>,
    /// `holidays`: days that count as weekend.
    pub holidays: Vec<Typed<MonthDay>>,
    /// `rent` of the tank; `per` is `month` or `year`.
    pub rent: Option<Typed<PriceText>>,
    /// `by_yearly_use`: what is added to the price by how much is used in a year.
    pub by_yearly_use: Option<Typed<Vec<YearlyUseSection>>>,
    /// `spike`: named times at which the price is higher (or lower).
    pub spike: Vec<SpikeSection>,
    /// `past`: mean prices of winters gone by, for the map of two prices.
    pub past: Vec<PastSection>,
    /// `heating`: a rate of its own for heating.
    pub heating: Option<Typed<HeatingRateSection>>,
    /// `moves`: how the price departs from the year above by chance.
    pub moves: Option<Typed<MovesSection>>,
}

/// `moves`: what is known, or believed, of how a price moves by chance.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct MovesSection {
    /// `level_spread`: standard deviation of the logarithm of the slow level, 0 to 1.
    pub level_spread: Option<Typed<f64>>,
    /// `volatility`, in place of `level_spread`: of its change in a year, were there nothing to bring it
    /// back; 0 to 2.
    pub volatility: Option<Typed<f64>>,
    /// `half_life_from` and `half_life_to`: within these years half of a departure is gone; 0.1 to 50.
    pub half_life_years: Option<(Typed<f64>, Typed<f64>)>,
    /// `spike_winters` with a spike among `of_winters` winters; whole numbers.
    pub spikes: Option<(Typed<f64>, Typed<f64>)>,
    /// `spike_size`: mean of the logarithm of a spike's factor, 0 to 2.
    pub spike_size: Option<Typed<f64>>,
    /// `spike_half_life`: weeks in which half of a spike is gone, 0.5 to 26.
    pub spike_half_life_weeks: Option<Typed<f64>>,
}

/// One rate: a fixed charge, and what energy costs when.
#[derive(Debug, Clone, PartialEq)]
pub struct RateSection {
    /// `fixed`: due whatever is used; `per` is `month` or `year`.
    pub fixed: Option<Typed<PriceText>>,
    /// What holds on days that no season covers; nothing where seasons cover the year.
    pub rest: Option<HoursSection>,
    /// `season`: spans of days with prices of their own; they do not overlap.
    pub season: Vec<SeasonSection>,
    /// `source`: where the prices come from.
    pub source: Option<Typed<String>>,
    /// `basis`: how they are known.
    pub basis: Option<Typed<HowKnown>>,
}

/// The prices of one season, or of the days that no season covers.
#[derive(Debug, Clone, PartialEq)]
pub struct HoursSection {
    /// What holds in hours that no period covers; nothing where periods cover the week.
    pub rest: Option<PriceSection>,
    /// `period`: hours of the week with prices of their own; they do not overlap.
    pub period: Vec<PeriodSection>,
}

/// A price; by month or by season only where there are no seasons and no periods.
#[derive(Debug, Clone, PartialEq)]
pub enum PriceSection {
    /// `price`: the same in every month.
    Flat(Typed<PriceText>),
    /// `price_by_month`: January to December, in this order whatever the order of the text.
    ByMonth(Box<Typed<[Typed<PriceText>; 12]>>),
    /// `price_by_season`: the price of summer and that of the winter's peak.
    BySeason(Box<SummerAndPeak>),
    /// `tier`: prices by how much has been used in the month; limits rise, the last has none.
    Tiers(Vec<TierSection>),
}

/// `price_by_season`: between the two the price rises and falls evenly.
#[derive(Debug, Clone, PartialEq)]
pub struct SummerAndPeak {
    /// `summer`: from May to September.
    pub summer: Typed<PriceText>,
    /// `winter_peak`: in January.
    pub winter_peak: Typed<PriceText>,
}

/// One entry of `tier`.
#[derive(Debug, Clone, PartialEq)]
pub struct TierSection {
    /// `up_to`: the month's use at which it ends; nothing for the last.
    pub up_to: Option<Typed<AmountText>>,
    /// `price`.
    pub price: Typed<PriceText>,
}

/// One `season`.
#[derive(Debug, Clone, PartialEq)]
pub struct SeasonSection {
    /// `name`.
    pub name: Typed<String>,
    /// `from`: first day.
    pub from: Typed<MonthDay>,
    /// `to`: last day, included; may lie before `from` in the year, then it crosses the new year.
    pub to: Typed<MonthDay>,
    /// Its prices.
    pub hours: HoursSection,
}

/// One `period`.
#[derive(Debug, Clone, PartialEq)]
pub struct PeriodSection {
    /// `name`.
    pub name: Typed<String>,
    /// When it holds.
    pub when: ClockSpanSection,
    /// Its price, flat or in tiers.
    pub price: PriceSection,
}

/// Hours of the clock on some days of the week.
#[derive(Debug, Clone, PartialEq)]
pub struct ClockSpanSection {
    /// `from`: wall-clock time, a whole hour.
    pub from: Typed<ClockTime>,
    /// `to`: wall-clock time, a whole hour; at or before `from` it crosses midnight.
    pub to: Typed<ClockTime>,
    /// `days`; all of them where nothing is typed.
    pub days: Option<Typed<DaysSection>>,
}

/// `days` of the week.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DaysSection {
    /// Every day.
    All,
    /// Monday to Friday, holidays left out.
    Weekdays,
    /// Saturday, Sunday and holidays.
    Weekends,
}

/// One `rider`.
#[derive(Debug, Clone, PartialEq)]
pub struct RiderSection {
    /// `name`.
    pub name: Typed<String>,
    /// What it is.
    pub amount: RiderAmount,
}

/// What a rider charges: exactly one of the two.
#[derive(Debug, Clone, PartialEq)]
pub enum RiderAmount {
    /// `price` for each unit used.
    Price(Typed<PriceText>),
    /// `share` of the energy charges.
    Share(Typed<f64>),
}

/// One entry of `by_yearly_use`.
#[derive(Debug, Clone, PartialEq)]
pub struct YearlyUseSection {
    /// `up_to`: the year's use up to which it holds; nothing for the last.
    pub up_to: Option<Typed<AmountText>>,
    /// `add`: what is added to the price.
    pub add: Typed<PriceText>,
}

/// `heating`: a rate of its own for heating.
#[derive(Debug, Clone, PartialEq)]
pub struct HeatingRateSection {
    /// What is charged for energy, and each month.
    pub rate: RateSection,
    /// `interrupted`: hours in which the machines on this rate are switched off.
    pub interrupted: Vec<ClockSpanSection>,
}

/// One `[[prices.FUEL.past]]`.
#[derive(Debug, Clone, PartialEq)]
pub struct PastSection {
    /// `name`: of the winter, the same with each fuel.
    pub name: Typed<String>,
    /// `price`: of energy, on its mean.
    pub price: Typed<PriceText>,
}

/// One `[[prices.FUEL.spike]]`.
#[derive(Debug, Clone, PartialEq)]
pub struct SpikeSection {
    /// `name`.
    pub name: Typed<String>,
    /// `from`: first day.
    pub from: Typed<MonthDay>,
    /// `to`: last day, included; may lie before `from` in the year, then it crosses the new year.
    pub to: Typed<MonthDay>,
    /// `times`: factor on the price, 0.1 to 20.
    pub times: Typed<f64>,
}

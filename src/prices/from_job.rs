//! The job's `[prices]` into prices of one kWh, all problems together.
//!
//! Start at [`prices`].

use super::moves::{LevelSize, Moves};
use super::price_year::{FuelPrice, Meter, Prices, Rider, RiderCharge, Spike, YearlyUse};
use super::rate::{ClockHours, DaysOfWeek, Rate, Tier};
use crate::calendar::MonthDay;
use crate::fuel::{Fuel, FuelId, Fuels};
use crate::job::{
    AmountText, ClockSpanSection, DaysSection, FuelPriceSection, HeatingRateSection, HoursSection, Job,
    MovesSection, PriceSection, PriceText, RateSection, RiderAmount, Typed,
};
use crate::problem::Problems;
use crate::sources::{Assumptions, Source};

/// How far each month, January first, is on the way from the summer's price to the winter's peak: even
/// steps from September to January and back until May. A judgement.
const PEAK_SHARES: [f64; 12] = [1.0, 0.75, 0.5, 0.25, 0.0, 0.0, 0.0, 0.0, 0.0, 0.25, 0.5, 0.75];

/// Builds the prices of every fuel the job names.
///
/// # Errors
/// Unknown fuels, prices by a unit that the fuel is not sold in, and charges that a fuel cannot have.
pub fn prices(job: &Job, fuels: &Fuels, assumptions: &mut Assumptions) -> Result<Prices, Problems> {
    let mut problems = Vec::new();
    let mut list = Vec::new();
    for (id, section) in &job.prices.fuels {
        match job.fuel(id, format!("prices.{}", id.value), fuels) {
            Ok((fuel, about)) => {
                let key = format!("prices.{}", about.id);
                let mut build = Builder { job, fuel, about, key, assumptions, problems: Vec::new() };
                list.extend(build.prices(section));
                problems.extend(build.problems);
            }
            Err(problem) => problems.push(problem),
        }
    }
    if problems.is_empty() { Ok(Prices(list)) } else { Err(problems) }
}

/// Builds the prices of one fuel; what cannot be read becomes 0 and a problem.
struct Builder<'a> {
    job: &'a Job,
    fuel: FuelId,
    about: &'a Fuel,
    key: String,
    assumptions: &'a mut Assumptions,
    problems: Problems,
}

impl Builder<'_> {
    fn prices(&mut self, s: &FuelPriceSection) -> Vec<FuelPrice> {
        self.fits(s);
        let main = FuelPrice {
            rent_per_month: per_month(s.rent.as_ref()),
            spikes: self.spikes(s),
            holidays: s.holidays.iter().map(|day| day.value).collect(),
            by_yearly_use: self.by_yearly_use(s),
            demand_per_kw: s.demand.as_ref().map_or(0.0, |demand| demand.amount),
            riders: s.rider.iter().map(|r| self.rider(&r.name, &r.amount)).collect(),
            tax: s.tax.as_ref().map_or(0.0, |tax| tax.value),
            moves: s.moves.as_deref().map(|moves| self.moves(moves)),
            past: s.past.iter().map(|past| (past.name.value.clone(), self.per_kwh(&past.price))).collect(),
            ..self.rate(&s.rate)
        };
        let heating = s.heating.as_ref().map(|heating| self.heating(heating, &main));
        std::iter::once(main).chain(heating).collect()
    }

    /// The named spikes; that those with days in common multiply there is told.
    fn spikes(&mut self, s: &FuelPriceSection) -> Vec<Spike> {
        let spikes = spikes(s);
        for (place, one) in spikes.iter().enumerate() {
            let meets = |other: &&Spike| {
                one.first.spans(one.last, other.first) || other.first.spans(other.last, one.first)
            };
            for other in spikes.iter().skip(place + 1).filter(meets) {
                let both = (100.0 * one.times * other.times).round() / 100.0;
                let both = format!("times {both} on the days of both");
                let why = format!(
                    "\u{201c}{}\u{201d} and \u{201c}{}\u{201d} have days in common, where spikes multiply",
                    one.name, other.name
                );
                self.assumptions.note(format!("{}.spike", self.key), both, Source::Derived(why));
            }
        }
        spikes
    }

    fn moves(&mut self, s: &MovesSection) -> Moves {
        let mut given = |given: Option<f64>, key: &str, default: f64, written: &str, why: &str| {
            let key = format!("{}.moves.{key}", self.key);
            let source = || Source::CommonPractice(why.into());
            self.assumptions.or_default(given, key, default, written, source)
        };
        let plain = |typed: &Option<Typed<f64>>| typed.as_ref().map(|typed| typed.value);
        let why = "a judgement: two years in three within a fifth of the price of the job";
        let level = match plain(&s.volatility) {
            Some(volatility) => LevelSize::InAYear(volatility),
            None => LevelSize::AtRest(given(plain(&s.level_spread), "level_spread", 0.2, "0.2", why)),
        };
        let (from, to) = (s.half_life_years.as_ref().map(|(from, to)| (from.value, to.value))).unzip();
        let why = "a judgement: no history of a house's length tells it";
        let half_life_years = (
            given(from, "half_life_from", 0.5, "0.5 years", why),
            given(to, "half_life_to", 5.0, "5 years", why),
        );
        let (with, among) = s.spikes.as_ref().map(|(with, among)| (with.value, among.value)).unzip();
        let why = "a judgement: how many winters with a spike were seen among how many";
        let spikes =
            (given(with, "spike_winters", 2.0, "2", why), given(among, "of_winters", 25.0, "25", why));
        let why = "a judgement: half of the spikes above 1.4 times the price, one in four above 2 times";
        let size = given(plain(&s.spike_size), "spike_size", 0.5, "0.5", why);
        let weeks = plain(&s.spike_half_life_weeks);
        let weeks = given(weeks, "spike_half_life", 4.0, "4 weeks", "a judgement");
        Moves::new(level, half_life_years, spikes, size, 7.0 * weeks)
    }

    /// The heating rate; spikes, holidays, riders and tax are the fuel's own.
    fn heating(&mut self, s: &HeatingRateSection, main: &FuelPrice) -> FuelPrice {
        let interrupted = s.interrupted.iter().map(clock_hours).collect();
        FuelPrice {
            meter: Meter::Heating { interrupted },
            spikes: main.spikes.clone(),
            holidays: main.holidays.clone(),
            riders: main.riders.clone(),
            tax: main.tax,
            ..self.rate(&s.rate)
        }
    }

    fn rate(&mut self, s: &RateSection) -> FuelPrice {
        let mut rates = Vec::new();
        for season in &s.season {
            let days = Some((season.from.value, season.to.value));
            self.add_hours(&mut rates, &season.hours, days, Some(&season.name.value));
        }
        let rest = (!s.season.is_empty()).then_some("rest of the year");
        if let Some(hours) = &s.rest {
            self.add_hours(&mut rates, hours, None, rest);
        }
        FuelPrice {
            rates,
            fixed_per_month: per_month(s.fixed.as_ref()),
            source: s.source.as_ref().map(|text| text.value.clone()),
            ..FuelPrice::flat(self.fuel, 0.0)
        }
    }

    /// Adds the periods of one season, then what holds in its other hours.
    fn add_hours(
        &mut self,
        rates: &mut Vec<Rate>,
        s: &HoursSection,
        days: Option<(MonthDay, MonthDay)>,
        season: Option<&str>,
    ) {
        let named = |period: Option<&str>| match (season, period) {
            (Some(season), Some(period)) => Some(format!("{season}, {period}")),
            (one, other) => one.or(other).map(str::to_owned),
        };
        for period in &s.period {
            let hours = Some(clock_hours(&period.when));
            let name = named(Some(&period.name.value));
            rates.push(Rate { name, days, hours, tiers: self.tiers(&period.price) });
        }
        let other = (!s.period.is_empty()).then_some("other hours");
        match &s.rest {
            Some(PriceSection::ByMonth(months)) => {
                rates.extend(by_month(months.value.iter().map(|price| self.per_kwh(price))));
            }
            Some(PriceSection::BySeason(ends)) => {
                let (summer, peak) = (self.per_kwh(&ends.summer), self.per_kwh(&ends.winter_peak));
                rates.extend(by_month(PEAK_SHARES.map(|share| summer + share * (peak - summer))));
            }
            Some(price) => {
                rates.push(Rate { name: named(other), days, hours: None, tiers: self.tiers(price) });
            }
            None => {}
        }
    }

    fn tiers(&mut self, price: &PriceSection) -> Vec<Tier> {
        let tier = |up_to_kwh, per_kwh| Tier { up_to_kwh, per_kwh };
        match price {
            PriceSection::Flat(price) => vec![tier(f64::INFINITY, self.per_kwh(price))],
            PriceSection::ByMonth(_) | PriceSection::BySeason(_) => Vec::new(),
            PriceSection::Tiers(tiers) => {
                tiers.iter().map(|t| tier(self.limit(t.up_to.as_ref()), self.per_kwh(&t.price))).collect()
            }
        }
    }

    fn by_yearly_use(&mut self, s: &FuelPriceSection) -> Vec<YearlyUse> {
        let steps = s.by_yearly_use.iter().flat_map(|steps| &steps.value);
        steps
            .map(|step| YearlyUse {
                up_to_kwh: self.limit(step.up_to.as_ref()),
                add_per_kwh: self.per_kwh(&step.add),
            })
            .collect()
    }

    fn rider(&mut self, name: &Typed<String>, amount: &RiderAmount) -> Rider {
        let charge = match amount {
            RiderAmount::Price(price) => RiderCharge::PerKwh(self.per_kwh(price)),
            RiderAmount::Share(share) => RiderCharge::Share(share.value),
        };
        Rider { name: name.value.clone(), charge }
    }

    fn per_kwh(&mut self, price: &Typed<PriceText>) -> f64 {
        let per = price.value.per.as_str();
        match self.job.units_in(self.about, per, &price.span, &self.key) {
            Ok(units) => price.value.amount / (units * self.about.kwh_per_unit),
            Err(problem) => {
                self.problems.push(problem);
                0.0
            }
        }
    }

    fn limit(&mut self, limit: Option<&Typed<AmountText>>) -> f64 {
        let Some(limit) = limit else { return f64::INFINITY };
        match self.about.units_in(&limit.value.unit) {
            Some(units) => limit.value.amount * units * self.about.kwh_per_unit,
            None => {
                let what = format!("{} is not measured in {}", self.about.name, limit.value.unit);
                let problem = self.job.problem(&limit.span, &self.key, what);
                let allowed = format!("an amount in {}", self.about.selling_unit);
                self.problems.push(problem.allowed(allowed).help("Give the limit in that unit"));
                f64::INFINITY
            }
        }
    }

    /// What has a meter has no tank, and what comes by truck has no meter.
    fn fits(&mut self, s: &FuelPriceSection) {
        let rate_span = rate_span(&s.rate);
        let (truck, meter) = (!self.about.metered, self.about.metered);
        let only_electric = self.fuel != FuelId::ELECTRICITY;
        let wrong = [
            (truck, "period or tier", rate_span),
            (only_electric, "demand", s.demand.as_ref().map(|d| d.span.clone())),
            (only_electric, "heating", s.heating.as_ref().map(|h| h.span.clone())),
            (meter, "rent", s.rent.as_ref().map(|r| r.span.clone())),
            (meter, "by_yearly_use", s.by_yearly_use.as_ref().map(|b| b.span.clone())),
        ];
        let name = &self.about.name;
        for (is_wrong, what, span) in wrong {
            let Some(span) = span.filter(|_| is_wrong) else { continue };
            let (why, help) = match what {
                "rent" | "by_yearly_use" => ("comes through a meter", "it is for fuels that come by truck"),
                "period or tier" => ("comes by truck", "its price can have months and seasons, not hours"),
                _ => ("is not electricity", "it is for electricity alone"),
            };
            let what = format!("{name} {why}, so {what} has no meaning");
            let problem = self.job.problem(&span, &self.key, what);
            self.problems.push(problem.help(format!("Take it out: {help}")));
        }
    }
}

/// A rate for each month, January first.
fn by_month(prices: impl IntoIterator<Item = f64>) -> impl Iterator<Item = Rate> {
    (1..=12).zip(prices).map(|(month, price)| {
        let day = |day| MonthDay { month, day };
        Rate { days: Some((day(1), day(31))), ..Rate::flat(price) }
    })
}

/// Where a rate has something that only a meter knows: a period or a tier.
fn rate_span(s: &RateSection) -> Option<std::ops::Range<usize>> {
    let hours = s.season.iter().map(|season| &season.hours).chain(&s.rest);
    hours.into_iter().find_map(|hours| match (&hours.rest, hours.period.first()) {
        (_, Some(period)) => Some(period.name.span.clone()),
        (Some(PriceSection::Tiers(tiers)), None) => tiers.first().map(|tier| tier.price.span.clone()),
        _ => None,
    })
}

fn spikes(s: &FuelPriceSection) -> Vec<Spike> {
    let spikes = s.spike.iter().map(|spike| Spike {
        name: spike.name.value.clone(),
        first: spike.from.value,
        last: spike.to.value,
        times: spike.times.value,
    });
    spikes.collect()
}

fn clock_hours(s: &ClockSpanSection) -> ClockHours {
    let days = match s.days.as_ref().map(|days| days.value) {
        None | Some(DaysSection::All) => DaysOfWeek::All,
        Some(DaysSection::Weekdays) => DaysOfWeek::Weekdays,
        Some(DaysSection::Weekends) => DaysOfWeek::Weekends,
    };
    ClockHours { from: s.from.hour, to: s.to.hour, days }
}

fn per_month(price: Option<&Typed<PriceText>>) -> f64 {
    let price = price.map(|price| &price.value);
    price.map_or(0.0, |p| if p.per == "year" { p.amount / 12.0 } else { p.amount })
}

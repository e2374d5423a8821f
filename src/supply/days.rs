//! Drives the days of an option that burns from stores: what a store can give bounds what the
//! simulation may burn.
//!
//! With ample fuel an option's year is the same whatever is in its stores, so it is run once; where
//! that run's days never ask more than the stores can give, it stands. Else the year is run again, and
//! days that could be tight go hour by hour within [`FuelLimits`]. Start at [`Ample`] and [`Days`].

use super::book::{Book, StoreYear};
use super::fuel_use::FuelUse;
use super::store::{MarketDays, Store};
use crate::fuel::FuelId;
use crate::simulation::plan::OptionPlan;
use crate::simulation::record::Sink;
use crate::simulation::state::FuelLimit;
use crate::simulation::{FuelLimits, OptionState, advance};

/// What an option burns in a year with ample fuel, whatever its stores hold.
#[derive(Debug, Clone, PartialEq)]
pub struct Ample {
    used: FuelUse,
    midnights: Vec<OptionState>,
    coldest_c: Vec<f64>,
    /// By fuel and day.
    asked: Vec<Vec<Asked>>,
}

/// What a day asks of a store.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Asked {
    kwh: f64,
    greatest_kw: f64,
}

impl Ample {
    /// Runs the year of `plan` with ample fuel, counting `fuels` and handing its hours to `sink`.
    pub fn new<S: Sink>(plan: &OptionPlan, fuels: Vec<FuelId>, sink: &mut S) -> Self {
        let days = plan.outdoor_c.len() / 24;
        let count = fuels.len();
        let mut used = FuelUse::new(fuels, 0, days);
        let mut state = OptionState::at_set_point(plan);
        let mut midnights = Vec::with_capacity(days);
        for day in 0..days {
            midnights.push(state.clone());
            let span = 24 * day..24 * day + 24;
            advance(plan, span, &mut state, &mut FuelLimits::none(), &mut (&mut *sink, &mut used));
        }
        let coldest = |hours: &[f64]| hours.iter().copied().fold(f64::INFINITY, f64::min);
        let coldest_c = plan.outdoor_c.chunks_exact(24).map(coldest).collect();
        let asked =
            |place, day| Asked { kwh: used.day_kwh(place, day), greatest_kw: used.greatest_kw(place, day) };
        let asked = (0..count).map(|place| (0..days).map(|day| asked(place, day)).collect()).collect();
        Self { used, midnights, coldest_c, asked }
    }

    /// What is burned.
    pub fn used(&self) -> &FuelUse {
        &self.used
    }

    /// What a day asks of the fuel of that place; nothing beyond the year.
    fn asked(&self, place: usize, day: usize) -> Asked {
        let asked = self.asked.get(place).and_then(|days| days.get(day)).copied();
        asked.unwrap_or(Asked { kwh: 0.0, greatest_kw: 0.0 })
    }
}

/// The days from an order to its delivery, by the store's place and the day of the order.
pub type Lead<'a> = &'a dyn Fn(usize, usize) -> usize;

/// An option's year with ample fuel, the stores that are to feed it, and the market they are filled on.
pub struct Days<'a> {
    plan: &'a OptionPlan,
    ample: &'a Ample,
    stores: &'a [&'a Store],
    markets: &'a [MarketDays],
    lead: Option<Lead<'a>>,
}

/// The stores of an option through a year, each in its place, and what was burned of each.
#[derive(Debug, Clone, PartialEq)]
pub struct DrivenYear {
    /// One a store.
    pub stores: Vec<StoreYear>,
    /// What was burned.
    pub used: FuelUse,
}

impl<'a> Days<'a> {
    /// The `stores`, one for each fuel that `ample` counts, in its order, filled on the `markets`; each
    /// order takes the contract's own days.
    pub fn new(
        plan: &'a OptionPlan,
        ample: &'a Ample,
        stores: &'a [&'a Store],
        markets: &'a [MarketDays],
    ) -> Self {
        Self { plan, ample, stores, markets, lead: None }
    }

    /// The same, but each order takes as long as `lead` says.
    #[must_use]
    pub fn with_lead(self, lead: Lead<'a>) -> Self {
        Self { lead: Some(lead), ..self }
    }

    /// The stores through the year from these levels (kWh) if the ample run stands, else nothing.
    pub fn ample_year(&self, start_kwh: &[f64]) -> Option<Vec<StoreYear>> {
        let mut books = self.books(start_kwh);
        for day in 0..self.ample.midnights.len() {
            books.iter_mut().for_each(|book| book.begin_day(day));
            if !self.is_ample(&books, day) {
                return None;
            }
            for (place, book) in books.iter_mut().enumerate() {
                book.burn(day, self.ample.asked(place, day).kwh, 0.0);
                book.end_day(day, |day| self.lead_days(place, day));
            }
        }
        Some(books.into_iter().map(Book::close).collect())
    }

    /// Whether a store is empty on some day on which the ample run asks for more; how much boils off is
    /// not asked.
    pub fn runs_out(&self, start_kwh: &[f64]) -> bool {
        let mut books = self.books(start_kwh);
        for day in 0..self.ample.midnights.len() {
            for (place, book) in books.iter_mut().enumerate() {
                book.begin_day(day);
                let kwh = self.ample.asked(place, day).kwh;
                if kwh > book.left_kwh(day) {
                    return true;
                }
                book.burn(day, kwh, 0.0);
                book.end_day(day, |day| self.lead_days(place, day));
            }
        }
        false
    }

    /// The year from these levels (kWh), run within what the stores can give and handed to `sink`;
    /// with `every_hour`, days that cannot be tight are run hour by hour too, which changes nothing.
    pub fn limited_year<S: Sink>(&self, start_kwh: &[f64], every_hour: bool, sink: &mut S) -> DrivenYear {
        let mut books = self.books(start_kwh);
        let mut state = OptionState::at_set_point(self.plan);
        let mut used = FuelUse::new(self.fuels(), 0, self.ample.midnights.len());
        for (day, midnight) in self.ample.midnights.iter().enumerate() {
            books.iter_mut().for_each(|book| book.begin_day(day));
            if !every_hour && state == *midnight && self.is_ample(&books, day) {
                let span = 24 * day..24 * day + 24;
                let sinks = &mut (&mut *sink, &mut used);
                advance(self.plan, span, &mut state, &mut FuelLimits::none(), sinks);
                for (place, book) in books.iter_mut().enumerate() {
                    book.burn(day, used.day_kwh(place, day), 0.0);
                    book.end_day(day, |day| self.lead_days(place, day));
                }
            } else {
                self.tight_day(&mut books, day, &mut state, &mut (&mut *sink, &mut used));
            }
        }
        DrivenYear { stores: books.into_iter().map(Book::close).collect(), used }
    }

    fn lead_days(&self, place: usize, day: usize) -> usize {
        let own = || self.stores.get(place).map_or(1, |store| store.contract.lead_days);
        self.lead.map_or_else(own, |lead| lead(place, day))
    }

    fn books(&self, start_kwh: &[f64]) -> Vec<Book<'_>> {
        let stores = self.stores.iter().zip(self.markets).zip(start_kwh);
        stores.map(|((store, market), start)| Book::new(store, market, *start)).collect()
    }

    /// Whether the ample run's day asks no more than the stores can give, the coldest hour taken with
    /// the evening's level.
    fn is_ample(&self, books: &[Book<'_>], day: usize) -> bool {
        let coldest_c = self.ample.coldest_c.get(day).copied().unwrap_or(f64::NEG_INFINITY);
        let mut stores = books.iter().zip(self.stores).enumerate();
        stores.all(|(place, (book, store))| {
            let asked = self.ample.asked(place, day);
            let gives_kw = || store.tank.greatest_kw(book.level_kwh() - asked.kwh, coldest_c);
            asked.kwh <= book.left_kwh(day) && asked.greatest_kw <= gives_kw()
        })
    }

    /// One day hour by hour, each within what the stores can give in it.
    fn tight_day<S: Sink>(
        &self,
        books: &mut [Book<'_>],
        day: usize,
        state: &mut OptionState,
        sinks: &mut (&mut S, &mut FuelUse),
    ) {
        let mut tally = vec![Tally::default(); books.len()];
        for hour in 24 * day..24 * day + 24 {
            let wanted = self.wanted(hour, state);
            let outdoor_c = self.plan.outdoor_c.get(hour).copied().unwrap_or(f64::NAN);
            let gives: Vec<Gives> = books
                .iter()
                .zip(self.stores)
                .zip(&tally)
                .map(|((book, store), tally)| Gives::of(book, store, day, outdoor_c, tally))
                .collect();
            let short = gives.iter().enumerate().any(|(place, g)| wanted.hour_kwh(place, 0) > g.most_kwh());
            let mut limits = if short { limits(self.stores, &gives) } else { FuelLimits::none() };
            advance(self.plan, hour..hour + 1, state, &mut limits, sinks);
            for (place, ((tally, gives), book)) in tally.iter_mut().zip(&gives).zip(&mut *books).enumerate() {
                let (wanted, got) = (wanted.hour_kwh(place, 0), sinks.1.hour_kwh(place, hour));
                tally.used_kwh += got;
                if wanted > gives.left_kwh && gives.left_kwh <= gives.greatest_kw {
                    tally.dry_hours += 1.0 - gives.left_kwh / wanted;
                } else if wanted > gives.greatest_kw {
                    book.short_of_vapour();
                }
            }
        }
        for (place, (book, tally)) in books.iter_mut().zip(tally).enumerate() {
            book.burn(day, tally.used_kwh, tally.dry_hours);
            book.end_day(day, |day| self.lead_days(place, day));
        }
    }

    /// What an hour would burn with ample fuel from where the option stands, as hour 0.
    fn wanted(&self, hour: usize, state: &OptionState) -> FuelUse {
        let mut wanted = FuelUse::new(self.fuels(), hour, 1);
        let mut trial = state.clone();
        advance(self.plan, hour..hour + 1, &mut trial, &mut FuelLimits::none(), &mut wanted);
        wanted
    }

    fn fuels(&self) -> Vec<FuelId> {
        self.stores.iter().map(|store| store.fuel).collect()
    }
}

/// What a day has done so far to a store.
#[derive(Debug, Clone, Copy, Default)]
struct Tally {
    used_kwh: f64,
    dry_hours: f64,
}

/// What a store can give in an hour.
#[derive(Debug, Clone, Copy)]
struct Gives {
    left_kwh: f64,
    greatest_kw: f64,
}

impl Gives {
    fn of(book: &Book<'_>, store: &Store, day: usize, outdoor_c: f64, tally: &Tally) -> Self {
        Self {
            left_kwh: (book.left_kwh(day) - tally.used_kwh).max(0.0),
            greatest_kw: store.tank.greatest_kw(book.level_kwh() - tally.used_kwh, outdoor_c),
        }
    }

    fn most_kwh(self) -> f64 {
        self.left_kwh.min(self.greatest_kw)
    }
}

fn limits(stores: &[&Store], gives: &[Gives]) -> FuelLimits {
    let limit = |(store, gives): (&&Store, &Gives)| FuelLimit {
        fuel: store.fuel,
        left_kwh: gives.left_kwh,
        greatest_kw: gives.greatest_kw,
    };
    FuelLimits::of(stores.iter().zip(gives).map(limit).collect())
}

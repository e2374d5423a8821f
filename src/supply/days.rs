//! Drives the days of an option that burns from stores: what a store can give bounds what the
//! simulation may burn.
//!
//! With ample fuel an option's year is the same whatever is in its stores, so it is run once; where
//! that run's days never ask more than the stores can give, it stands. Else the year is run again, and
//! days that could be tight go hour by hour within [`FuelLimits`]. Start at [`Days`].

use super::book::{Book, StoreYear};
use super::fuel_use::FuelUse;
use super::store::{MarketDays, Store};
use crate::fuel::FuelId;
use crate::simulation::plan::OptionPlan;
use crate::simulation::record::Sink;
use crate::simulation::state::FuelLimit;
use crate::simulation::{FuelLimits, OptionState, advance};

/// An option's year with ample fuel, and the stores that are to feed it.
pub struct Days<'a> {
    plan: &'a OptionPlan,
    stores: &'a [&'a Store],
    markets: Vec<MarketDays>,
    ample: FuelUse,
    midnights: Vec<OptionState>,
    coldest_c: Vec<f64>,
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
    /// Runs the year of `plan` with ample fuel, handing its hours to `sink`; `market` prices the days of a
    /// store by its use in a year (kWh).
    pub fn new<S: Sink>(
        plan: &'a OptionPlan,
        stores: &'a [&'a Store],
        market: impl Fn(&Store, f64) -> MarketDays,
        sink: &mut S,
    ) -> Self {
        let days = plan.outdoor_c.len() / 24;
        let mut ample = FuelUse::new(stores.iter().map(|store| store.fuel).collect(), 0, days);
        let mut state = OptionState::at_set_point(plan);
        let mut midnights = Vec::with_capacity(days);
        for day in 0..days {
            midnights.push(state.clone());
            let span = 24 * day..24 * day + 24;
            advance(plan, span, &mut state, &mut FuelLimits::none(), &mut (&mut *sink, &mut ample));
        }
        let coldest = |hours: &[f64]| hours.iter().copied().fold(f64::INFINITY, f64::min);
        let coldest_c = plan.outdoor_c.chunks_exact(24).map(coldest).collect();
        let yearly =
            |place, store: &Store| store.contract.last_year_kwh.unwrap_or_else(|| ample.year_kwh(place));
        let markets = stores.iter().enumerate().map(|(i, store)| market(store, yearly(i, store))).collect();
        Self { plan, stores, markets, ample, midnights, coldest_c }
    }

    /// The market's days, one a store.
    pub fn markets(&self) -> &[MarketDays] {
        &self.markets
    }

    /// What the option burns with ample fuel.
    pub fn ample(&self) -> &FuelUse {
        &self.ample
    }

    /// The year from these levels (kWh) if the ample run stands, else nothing.
    pub fn ample_year(&self, start_kwh: &[f64]) -> Option<DrivenYear> {
        let mut books = self.books(start_kwh);
        for day in 0..self.midnights.len() {
            books.iter_mut().for_each(|book| book.begin_day(day));
            if !self.is_ample(&books, day) {
                return None;
            }
            self.end_day(&mut books, day, &self.ample);
        }
        let stores = books.into_iter().map(Book::close).collect();
        Some(DrivenYear { stores, used: self.ample.clone() })
    }

    /// The year from these levels (kWh), run within what the stores can give and handed to `sink`;
    /// with `every_hour`, days that cannot be tight are run hour by hour too, which changes nothing.
    pub fn limited_year<S: Sink>(&self, start_kwh: &[f64], every_hour: bool, sink: &mut S) -> DrivenYear {
        let mut books = self.books(start_kwh);
        let mut state = OptionState::at_set_point(self.plan);
        let mut used = FuelUse::new(self.fuels(), 0, self.midnights.len());
        for (day, midnight) in self.midnights.iter().enumerate() {
            books.iter_mut().for_each(|book| book.begin_day(day));
            if !every_hour && state == *midnight && self.is_ample(&books, day) {
                let span = 24 * day..24 * day + 24;
                let sinks = &mut (&mut *sink, &mut used);
                advance(self.plan, span, &mut state, &mut FuelLimits::none(), sinks);
                self.end_day(&mut books, day, &used);
            } else {
                self.tight_day(&mut books, day, &mut state, &mut (&mut *sink, &mut used));
            }
        }
        DrivenYear { stores: books.into_iter().map(Book::close).collect(), used }
    }

    fn books(&self, start_kwh: &[f64]) -> Vec<Book<'_>> {
        let stores = self.stores.iter().zip(&self.markets).zip(start_kwh);
        stores.map(|((store, market), start)| Book::new(store, market, *start)).collect()
    }

    /// Whether the ample run's day asks no more than the stores can give, the coldest hour taken with
    /// the evening's level.
    fn is_ample(&self, books: &[Book<'_>], day: usize) -> bool {
        let coldest_c = self.coldest_c.get(day).copied().unwrap_or(f64::NEG_INFINITY);
        let mut stores = books.iter().zip(self.stores).enumerate();
        stores.all(|(place, (book, store))| {
            let kwh = self.ample.day_kwh(place, day);
            let gives_kw = store.tank.greatest_kw(book.level_kwh() - kwh, coldest_c);
            kwh <= book.left_kwh(day) && self.ample.greatest_kw(place, day) <= gives_kw
        })
    }

    /// Burns and looks where nothing was lacking.
    fn end_day(&self, books: &mut [Book<'_>], day: usize, used: &FuelUse) {
        for (place, (book, store)) in books.iter_mut().zip(self.stores).enumerate() {
            book.burn(day, used.day_kwh(place, day), 0.0);
            book.end_day(day, |_| store.contract.lead_days);
        }
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
        for ((book, store), tally) in books.iter_mut().zip(self.stores).zip(tally) {
            book.burn(day, tally.used_kwh, tally.dry_hours);
            book.end_day(day, |_| store.contract.lead_days);
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

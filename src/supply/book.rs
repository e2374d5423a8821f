//! One store day by day: it is delivered to, burned from, looked at, ordered for.
//!
//! The order within a day is fixed: deliver at its start, burn, look in the evening. Knows no machine:
//! whoever drives it says what was burned and what was lacking. Start at [`Book`].

use super::contract::{Orders, PriceDay, PricePlan};
use super::store::{MarketDays, Store};

/// What came of a store through a run.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct StoreYear {
    /// What was in it when the run began, kWh (HHV).
    pub start_kwh: f64,
    /// What was in it at the end of each day, kWh.
    pub levels_kwh: Vec<f64>,
    /// Deliveries in order.
    pub deliveries: Vec<Delivery>,
    /// Days on which fuel was lacking because the store was dry or not yet relit, with the hours.
    pub dry: Vec<(usize, f64)>,
    /// Times it ran dry.
    pub run_outs: usize,
    /// Hours in which less boiled off than was wanted.
    pub vapour_hours: usize,
    /// What was burned, kWh.
    pub burned_kwh: f64,
    /// Pre-bought fuel that was not delivered, kWh.
    pub left_over_kwh: f64,
}

/// A delivery.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Delivery {
    /// The day of the order, from 0.
    pub ordered_on: usize,
    /// The day at whose start it came.
    pub day: usize,
    /// How much, kWh.
    pub kwh: f64,
    /// What was in the store before, kWh.
    pub before_kwh: f64,
    /// What the fuel cost, fees of the delivery left out.
    pub amount: f64,
    /// Whether it was less than the least that is delivered.
    pub small: bool,
    /// Whether it was an emergency.
    pub emergency: bool,
    /// Whether a leak test went with it, since the store had run dry.
    pub leak_test: bool,
}

impl StoreYear {
    /// What was in the store at the end, kWh.
    pub fn end_kwh(&self) -> f64 {
        self.levels_kwh.last().copied().unwrap_or(self.start_kwh)
    }

    /// The lowest level at the end of a day, kWh.
    pub fn lowest_kwh(&self) -> f64 {
        self.levels_kwh.iter().copied().fold(self.start_kwh, f64::min)
    }

    /// Hours in which fuel was lacking because the store was dry or not yet relit.
    pub fn dry_hours(&self) -> f64 {
        self.dry.iter().map(|(_, hours)| hours).sum()
    }

    /// What was delivered, kWh.
    pub fn bought_kwh(&self) -> f64 {
        self.deliveries.iter().map(|d| d.kwh).sum()
    }

    /// What the delivered fuel cost, fees left out.
    pub fn paid(&self) -> f64 {
        self.deliveries.iter().map(|d| d.amount).sum()
    }
}

#[derive(Debug, Clone, Copy, PartialEq)]
struct Order {
    on: usize,
    arrives: usize,
    market: f64,
    emergency: bool,
}

/// A store while a run goes on.
#[derive(Debug, Clone, PartialEq)]
pub struct Book<'a> {
    store: &'a Store,
    market: &'a MarketDays,
    forecast_error: f64,
    level_kwh: f64,
    since_fill_kwh: f64,
    order: Option<Order>,
    dry: bool,
    burns_from: usize,
    pre_bought_kwh: f64,
    year: StoreYear,
}

impl<'a> Book<'a> {
    /// Opens the book with `start_kwh` in the store.
    ///
    /// Whoever begins at or below the reorder level has ordered in time: that delivery comes on the
    /// first day, if the least delivery finds room.
    pub fn new(store: &'a Store, market: &'a MarketDays, start_kwh: f64) -> Self {
        let contract = &store.contract;
        let mut book = Self {
            store,
            market,
            forecast_error: contract.orders.forecast_error(),
            level_kwh: start_kwh,
            since_fill_kwh: 0.0,
            order: None,
            dry: false,
            burns_from: 0,
            pre_bought_kwh: match contract.price {
                PricePlan::PreBuy { kwh, .. } => kwh,
                _ => 0.0,
            },
            year: StoreYear { start_kwh, ..StoreYear::default() },
        };
        if book.low() && book.worth_a_trip() {
            book.order = Some(Order { on: 0, arrives: 0, market: market.price(0), emergency: false });
        }
        book
    }

    /// The start of a day: what is due is delivered.
    pub fn begin_day(&mut self, day: usize) {
        if let Some(order) = self.order.filter(|order| order.arrives <= day) {
            self.order = None;
            self.deliver(day, order);
        }
    }

    /// What may burn on a day, kWh.
    pub fn left_kwh(&self, day: usize) -> f64 {
        if day < self.burns_from { 0.0 } else { (self.level_kwh - self.store.tank.reserve_kwh()).max(0.0) }
    }

    /// What is in the store, kWh.
    pub fn level_kwh(&self) -> f64 {
        self.level_kwh
    }

    /// What a day burned (kWh) and for how many hours fuel was lacking.
    pub fn burn(&mut self, day: usize, kwh: f64, dry_hours: f64) {
        self.level_kwh -= kwh;
        self.since_fill_kwh += kwh;
        self.year.burned_kwh += kwh;
        if dry_hours > 0.0 {
            self.year.dry.push((day, dry_hours));
            // Fuel that waits for the leak test is lacking too, but that is no run-out of its own.
            if day >= self.burns_from && !self.dry {
                self.dry = true;
                self.year.run_outs += 1;
            }
        }
    }

    /// An hour in which less boiled off than was wanted.
    pub fn short_of_vapour(&mut self) {
        self.year.vapour_hours += 1;
    }

    /// The evening: the level is looked at, and ordered for; `lead` gives the days to the delivery.
    pub fn end_day(&mut self, day: usize, lead: impl FnOnce(usize) -> usize) {
        self.year.levels_kwh.push(self.level_kwh);
        if self.dry
            && let Some(days) = self.store.contract.emergency_days
            && self.order.is_none_or(|order| order.arrives > day + days.max(1))
        {
            self.place(day, days, true);
        }
        // Whoever has run dry calls, whatever the supplier reckons.
        let wanted = self.low() || self.dry || self.summer_day(day);
        if self.order.is_none() && wanted && self.worth_a_trip() {
            self.place(day, lead(day), false);
        }
    }

    /// Closes the book.
    pub fn close(mut self) -> StoreYear {
        self.year.left_over_kwh = self.pre_bought_kwh;
        self.year
    }

    /// Whether the level that the contract's watcher sees is at or below the reorder level.
    fn low(&self) -> bool {
        self.level_kwh + self.forecast_error * self.since_fill_kwh <= self.store.contract.reorder_kwh
    }

    fn summer_day(&self, day: usize) -> bool {
        match self.store.contract.orders {
            Orders::SummerFill { on } => self.market.dates.get(day) == Some(&on),
            Orders::WillCall | Orders::Automatic { .. } => false,
        }
    }

    fn worth_a_trip(&self) -> bool {
        let contract = &self.store.contract;
        contract.fees.small_drop.is_some() || self.room_kwh() >= contract.minimum_drop_kwh
    }

    fn room_kwh(&self) -> f64 {
        self.store.tank.full_kwh() - self.level_kwh
    }

    fn place(&mut self, day: usize, days: usize, emergency: bool) {
        let market = self.market.price(day);
        self.order = Some(Order { on: day, arrives: day + days.max(1), market, emergency });
    }

    fn deliver(&mut self, day: usize, order: Order) {
        let (kwh, contract) = (self.room_kwh(), &self.store.contract);
        if kwh <= 0.0 {
            return;
        }
        let market = match contract.price_day {
            PriceDay::Order => order.market,
            PriceDay::Delivery => self.market.price(day),
        };
        let (from_plan_kwh, plan_price) = match contract.price {
            PricePlan::PreBuy { per_kwh, .. } => (kwh.min(self.pre_bought_kwh), per_kwh),
            _ => (0.0, 0.0),
        };
        self.pre_bought_kwh -= from_plan_kwh;
        let amount = from_plan_kwh * (plan_price + contract.fees.plan_per_kwh)
            + (kwh - from_plan_kwh) * contract.per_kwh(market);
        self.year.deliveries.push(Delivery {
            ordered_on: order.on,
            day,
            kwh,
            before_kwh: self.level_kwh,
            amount,
            small: kwh < contract.minimum_drop_kwh,
            emergency: order.emergency,
            leak_test: self.dry,
        });
        if self.dry {
            self.burns_from = day + contract.relight_days;
        }
        self.dry = false;
        self.level_kwh = self.store.tank.full_kwh();
        self.since_fill_kwh = 0.0;
    }
}

/// A store through so many days of which each wants `wanted_kwh(day)`, without any machine: where fuel
/// is lacking, the day's hours are dry in that share.
///
/// `lead` gives the days from an order to its delivery by the day of the order.
pub fn through_days(
    mut book: Book<'_>,
    days: usize,
    wanted_kwh: impl Fn(usize) -> f64,
    mut lead: impl FnMut(usize) -> usize,
) -> StoreYear {
    for day in 0..days {
        book.begin_day(day);
        let wanted = wanted_kwh(day);
        let burned = wanted.min(book.left_kwh(day));
        book.burn(day, burned, if burned < wanted { 24.0 * (1.0 - burned / wanted) } else { 0.0 });
        book.end_day(day, &mut lead);
    }
    book.close()
}

//! The terms on which a fuel comes to the house: who orders when, at what price, for what fees.
//!
//! Amounts of fuel are kWh (HHV), money is the job's currency. Knows no tank and no use. Start at
//! [`Contract`].

use crate::calendar::MonthDay;

/// The terms of one store's supply.
#[derive(Debug, Clone, PartialEq)]
pub struct Contract {
    /// Who watches the level and orders.
    pub orders: Orders,
    /// It is ordered at or below this level, kWh.
    pub reorder_kwh: f64,
    /// A delivery comes at the start of the day that follows the order by so many days; at least 1.
    pub lead_days: usize,
    /// The same, as the middle of what is usual, in the coldest ten days of an ordinary winter.
    pub cold_lead_days: usize,
    /// Whether that is what the job says; else it is a judgement.
    pub cold_lead_stated: bool,
    /// Whether the supplier owns the store, so that nobody else may fill it.
    pub leased: bool,
    /// What a delivery costs.
    pub price: PricePlan,
    /// Which day's price holds.
    pub price_day: PriceDay,
    /// Fees.
    pub fees: Fees,
    /// The least that is delivered, kWh; 0 where nothing is said.
    pub minimum_drop_kwh: f64,
    /// Days to an emergency delivery after a run-out, if there is such a thing; at least 1.
    pub emergency_days: Option<usize>,
    /// Days from a delivery after a run-out until the lines are checked and burners relit.
    pub relight_days: usize,
    /// Fuel used in the year before, kWh, where the price is raised by yearly use; where nothing is said,
    /// the year's own use.
    pub last_year_kwh: Option<f64>,
    /// Whether the year is paid in twelve equal parts.
    pub budget_plan: bool,
}

/// Who watches the level and orders.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Orders {
    /// The house looks at the gauge each evening.
    WillCall,
    /// The supplier keeps it full by degree-days, without seeing the gauge.
    Automatic {
        /// The supplier counts this share of the use since the last fill too little.
        forecast_error: f64,
        /// Whether the supplier pays for what a run-out brings.
        guarantee: bool,
    },
    /// The house has it filled on this day each year, and looks at the gauge else.
    SummerFill {
        /// The day of the order.
        on: MonthDay,
    },
}

/// What a delivery costs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PricePlan {
    /// The price of the day.
    Market,
    /// One price for the year, for each kWh.
    Fixed(f64),
    /// The price of the day, but no more than this for each kWh.
    Cap(f64),
    /// So much fuel paid for at this price beforehand; the rest at the price of the day.
    PreBuy {
        /// For each kWh.
        per_kwh: f64,
        /// How much, kWh.
        kwh: f64,
        /// What becomes of what is left over.
        left_over: LeftOver,
    },
}

/// What becomes of pre-bought fuel that is not delivered within the year.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LeftOver {
    /// Paid back.
    Refund,
    /// Delivered in the next year at no further cost.
    Carry,
    /// Gone.
    Lose,
}

/// Which day's price holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PriceDay {
    /// The day of the order.
    Order,
    /// The day of the delivery.
    Delivery,
}

/// Fees, all in the job's currency; 0 where there is none.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Fees {
    /// On top of the price of each kWh.
    pub plan_per_kwh: f64,
    /// For the price plan, a year.
    pub plan_a_year: f64,
    /// For each delivery.
    pub drop: f64,
    /// For a delivery below the least amount; nothing where such a delivery is refused.
    pub small_drop: Option<f64>,
    /// For an emergency delivery.
    pub emergency: f64,
    /// For the leak test after a run-out.
    pub leak_test: f64,
    /// For a year in which less than so many kWh were delivered, and what.
    pub low_use: Option<(f64, f64)>,
    /// For the tank, a year.
    pub rent: f64,
    /// For setting the tank and fetching it again, once, and over how many years that is spread.
    pub set_and_pick_up: (f64, f64),
}

impl Orders {
    /// Share of the use since the last fill that whoever orders does not see.
    pub fn forecast_error(self) -> f64 {
        match self {
            Self::Automatic { forecast_error, .. } => forecast_error,
            Self::WillCall | Self::SummerFill { .. } => 0.0,
        }
    }

    /// Whether both are watched and ordered in the same way, whatever their day or error.
    pub fn is_like(self, other: Self) -> bool {
        std::mem::discriminant(&self) == std::mem::discriminant(&other)
    }

    /// Days from an order to its delivery where nothing is said: in ordinary weather, and in the coldest
    /// ten days of an ordinary winter.
    ///
    /// Common practice for the first; the second is a judgement: a truck can take days or a month, and
    /// comes to those first whom the supplier watches.
    pub fn usual_lead_days(self) -> (usize, usize) {
        match self {
            Self::Automatic { .. } => (3, 10),
            Self::WillCall | Self::SummerFill { .. } => (7, 30),
        }
    }
}

impl Contract {
    /// Whether each kWh costs what the market asks on its day, and no more.
    pub fn is_at_market(&self) -> bool {
        self.price == PricePlan::Market && self.fees.plan_per_kwh == 0.0
    }

    /// The longest lead that the job states, days: that of the coldest ten days where there is one.
    pub fn longest_stated_lead(&self) -> usize {
        if self.cold_lead_stated { self.lead_days.max(self.cold_lead_days) } else { self.lead_days }
    }

    /// Whether the supplier pays for what a run-out brings.
    pub fn guaranteed(&self) -> bool {
        matches!(self.orders, Orders::Automatic { guarantee: true, .. })
    }

    /// What one kWh costs when the market asks so much, beyond what is paid for beforehand; fees on
    /// the kWh are in it.
    ///
    /// ```
    /// # use winterledger::supply::contract::*;
    /// # let mut contract = Contract { orders: Orders::WillCall, reorder_kwh: 0.0, lead_days: 7,
    /// #     cold_lead_days: 30, cold_lead_stated: true, leased: false,
    /// #     price: PricePlan::Cap(0.10), price_day: PriceDay::Order,
    /// #     fees: Fees { plan_per_kwh: 0.01, ..Fees::default() }, minimum_drop_kwh: 0.0,
    /// #     emergency_days: None, relight_days: 0, last_year_kwh: None,
    /// #     budget_plan: false };
    /// assert_eq!(contract.per_kwh(0.08), 0.08 + 0.01);
    /// assert_eq!(contract.per_kwh(0.20), 0.10 + 0.01); // a cap of 0.10
    /// ```
    pub fn per_kwh(&self, market: f64) -> f64 {
        match self.price {
            // Beyond what is pre-bought there is no plan, and no fee for one.
            PricePlan::PreBuy { .. } => market,
            PricePlan::Market => market + self.fees.plan_per_kwh,
            PricePlan::Fixed(price) => price + self.fees.plan_per_kwh,
            PricePlan::Cap(most) => market.min(most) + self.fees.plan_per_kwh,
        }
    }
}

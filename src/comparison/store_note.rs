//! What a reader must know of a store of fuel; worded elsewhere.
//!
//! Start at [`StoreNote`].

use crate::calendar::MonthDay;
use crate::supply::contract::Contract;

/// What a reader must know of a store.
#[derive(Debug, Clone, PartialEq)]
pub enum StoreNote {
    /// It ran dry.
    RanDry {
        /// How often.
        times: usize,
        /// Hours in which fuel was lacking, until burners were lit again.
        hours: f64,
        /// The first day of it.
        first: MonthDay,
    },
    /// In great cold less boiled off than was wanted.
    ShortOfVapour {
        /// Hours of the year.
        hours: usize,
    },
    /// All burners at once ask more than boils off at the design temperature and the level of orders.
    AsksMoreThanBoilsOff {
        /// What they ask, kW.
        asked_kw: f64,
        /// What boils off, kW.
        gives_kw: f64,
    },
    /// In design cold it is empty before an order comes, in ordinary weather or in a cold snap.
    OrderedLate {
        /// Days that it lasts from the level of orders.
        lasts_days: f64,
        /// Days from order to delivery.
        lead_days: usize,
        /// The same in a cold snap, where the job states it.
        longest_lead: usize,
    },
    /// Nothing is ordered at the reorder level, since the least delivery finds no room then.
    NoRoomForDrop {
        /// The reorder level, share of the capacity.
        asked: f64,
        /// The level at which it finds room, share of the capacity.
        room_at: f64,
    },
    /// The oil stands in the open and clouds in such cold.
    MayCloud {
        /// Hours of the year that are cold enough.
        hours: usize,
    },
    /// The fuel is not paid at the price of the day.
    PricePlan {
        /// How much more a year the option costs on the plan than on the best ordinary terms, in the job's
        /// currency; below 0 less.
        costs_more: f64,
        /// Those terms.
        ordinary: Box<Contract>,
    },
    /// The year is paid in twelve equal parts.
    TwelveParts {
        /// Each, in the job's currency.
        each: f64,
    },
}

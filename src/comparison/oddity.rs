//! What can be true but seldom is, and what is not counted, as values that `report` words.
//!
//! Start at [`Oddity`].

/// What can be true but seldom is, and what is not counted.
#[derive(Debug, Clone, PartialEq)]
pub enum Oddity {
    /// A ducted heat pump of some option has strips or a furnace behind it, and their help while it
    /// defrosts is not counted.
    DefrostHeatNotCounted,
    /// A heat pump whose air a furnace is to temper while it defrosts has none behind it in the ducts.
    NoFurnaceToTemper {
        /// The machine's name.
        machine: String,
        /// The names of the options in which that is so.
        options: Vec<String>,
    },
    /// A price far from what the fuel ordinarily costs.
    OddPrice {
        /// The fuel's name.
        fuel: String,
        /// The price of one selling unit.
        per_unit: f64,
        /// The selling unit.
        unit: String,
    },
    /// A month's price far from those of the other months.
    OddMonthPrice {
        /// The fuel's name.
        fuel: String,
        /// The month, from 0.
        month: usize,
        /// Its price.
        amount: f64,
        /// The median of the others.
        median: f64,
        /// The unit that they are for.
        unit: String,
    },
    /// More is due each month than a house ordinarily pays: a year's amount?
    LargeFee {
        /// The fuel's name.
        fuel: String,
        /// `fixed` or `rent`.
        key: &'static str,
        /// The amount, in the job's currency.
        per_month: f64,
    },
    /// A design load far from what a floor area ordinarily needs.
    OddLoad {
        /// Whose it is where not the whole house's.
        zone: Option<String>,
        /// Design load for each m², kW.
        kw_m2: f64,
    },
    /// A machine that gives clearly more in the cold than in mild weather.
    OddMap {
        /// The machine's name.
        machine: String,
        /// Where it is cold, °C.
        cold_c: f64,
        /// Where it is mild, °C.
        warm_c: f64,
        /// How many times the output of the one that of the other is.
        times: f64,
    },
    /// More is to temper the air while a heat pump defrosts than the strips have of which it is a part.
    TemperedBeyondBank {
        /// The heat pump's name.
        machine: String,
        /// What the job says, kW.
        kw: f64,
        /// The strips' name.
        bank: String,
        /// What all of their stages give, kW.
        bank_kw: f64,
    },
}

impl Oddity {
    /// Whether it asks to look at something that may be wrong; the others only tell.
    pub fn asks(&self) -> bool {
        match self {
            Self::OddPrice { .. }
            | Self::OddMonthPrice { .. }
            | Self::LargeFee { .. }
            | Self::OddLoad { .. }
            | Self::OddMap { .. }
            | Self::TemperedBeyondBank { .. }
            | Self::NoFurnaceToTemper { .. } => true,
            Self::DefrostHeatNotCounted => false,
        }
    }
}

//! What a reader of the comparison must know beside the figures; worded elsewhere.
//!
//! Start at [`Note`].

use super::doubt::Doubt;
use super::efficiency::OddEfficiency;
pub use super::oddity::Oddity;
use super::proportion::Disproportion;
use super::slip::Slip;
pub use super::store_note::StoreNote;
use super::tenfold::Tenfold;
use super::unlikely::Unlikely;
use crate::simulation::bins::EconomicBalance;
use crate::weather::Remark;
use crate::weather::extremes::NYearLow;
use crate::weather::quality::{Degree, Flag};
use crate::weather::synthetic::OddMonth;
use crate::weather::year::FilledAt;

/// Outdoors No. 2 oil clouds from the one to the other, °F: common practice.
pub const CLOUDS_F: (f64, f64) = (15.0, 20.0);

/// A remark on a run.
#[derive(Debug, Clone, PartialEq)]
pub enum Note {
    /// Neither weather nor job tells how cold it can get.
    ExtremesNotCovered(Uncovered),
    /// The lows of the record's winters, where they tell the cold to plan for.
    RecordLow {
        /// The low of [`PLANNED_YEARS`](super::site::PLANNED_YEARS).
        low: NYearLow,
        /// How many winters the record has.
        winters: usize,
        /// The coldest hour of them all, °C.
        coldest_c: f64,
        /// Whether it is planned for; else the job gives another.
        planned: bool,
    },
    /// The weather is a typical year, which leaves out extremes; the job's extreme low covers them.
    TypicalYear,
    /// The weather is a synthetic year: made from monthly means, no hour of it measured.
    SyntheticYear {
        /// The seed of its days.
        seed: u64,
        /// Whether the job gives an extreme low.
        extreme_low_given: bool,
    },
    /// An option has no cooler for zones that need cooling and that another option cools.
    DoesNotCool {
        /// The option's name.
        option: String,
        /// The zones' names.
        zones: Vec<String>,
    },
    /// A bill of the past that is far from what is calculated for its days.
    PastBill(PastBillOff),
    /// A number of the job that is seldom so.
    Slip(Slip),
    /// A power that such a machine hardly has.
    Tenfold(Tenfold),
    /// A load, a machine or rows out of proportion with what is beside them.
    Disproportion(Disproportion),
    /// A COP or a label that hardly can be.
    Efficiency(OddEfficiency),
    /// Something that hardly anybody means.
    Unlikely(Unlikely),
    /// An amount, hours or degrees that hardly anybody means.
    Doubt(Doubt),
    /// Something about the weather looks wrong; nothing of it was changed.
    Weather(Flag),
    /// Winters of the record whose cold months have gaps say nothing of its lows.
    WintersLeftOut {
        /// The years in which they began.
        first_years: Vec<i32>,
    },
    /// Hours of the weather file were filled because it had none.
    WeatherFilled {
        /// How many.
        hours: usize,
        /// Where.
        at: Option<FilledAt>,
    },
    /// The weather is twelve months out of a record of several years.
    OneOfRecord {
        /// The year of the July with which they begin.
        first_year: i32,
        /// Complete runs from July to June in the record.
        complete_years: usize,
        /// Whether the job names the year; else it is the latest.
        asked: bool,
    },
    /// Something done when the weather file was read.
    Reading(Remark),
    /// A difference was added to every outdoor hour because the house is not the weather station.
    SiteOffset {
        /// How much, K.
        kelvin: f64,
    },
    /// The weather file does not say its offset from UTC, so clocks stay on standard time.
    ClockUnknown,
    /// The weather has no hours in order: no room, no months, no set-back.
    BinsOnly,
    /// A machine was counted as off because its map does not reach that far.
    NoDataBelow {
        /// The machine's name.
        machine: String,
        /// The temperature below which there is no data, °C.
        below_c: f64,
        /// Hours of the year, the most of any option.
        hours: usize,
    },
    /// A machine's map ends well above its cut-out; its output in between is a guess.
    Guessed {
        /// The machine's name.
        machine: String,
        /// The temperature of its coldest row, °C.
        coldest_row_c: f64,
        /// Colder than this it is a guess, °C.
        below_c: f64,
        /// The cut-out, °C.
        cut_out_c: f64,
        /// The coldest of design temperatures, hours and the low to plan for, where that is colder than `below_c`, °C.
        night_c: Option<f64>,
    },
    /// Something that hardly goes together.
    Mismatch(Mismatch),
    /// Something seldom so, or not counted.
    Oddity(Oddity),
    /// A machine was off at its own cut-out.
    CutOut {
        /// The machine's name.
        machine: String,
        /// The cut-out, °C.
        at_c: f64,
        /// Hours of the year, the most of any option.
        hours: usize,
    },
    /// A heat pump and a furnace would cost clearly less with another lock-out.
    BetterLockout(BetterLockout),
    /// From where the second of two heaters that take turns by cost is the cheaper, at mean prices.
    EconomicBalance {
        /// The option's name.
        option: String,
        /// The zone's name.
        zone: String,
        /// From where.
        balance: EconomicBalance,
    },
    /// A machine's own rows contradict its label, or cannot be held against it.
    Label {
        /// The machine's name.
        machine: String,
        /// The rating: HSPF2 or SEER2.
        rating: &'static str,
        /// What the label says, Btu/Wh.
        label: f64,
        /// What the rows give; nothing if they do not reach the rating's temperatures.
        own: Option<f64>,
    },
    /// Resistance heat asks something of the panel, and the job does not say what it can spare.
    PanelUnknown {
        /// Options and what each asks, 125 % of the current at 240 V, A.
        options: Vec<(String, f64)>,
    },
    /// The panel carries the resistance heat; compressors and blowers are not counted.
    PanelCarries {
        /// Options and what each asks, 125 % of the current at 240 V, A.
        options: Vec<(String, f64)>,
        /// What the panel can spare, A.
        spare_a: f64,
    },
    /// Resistance heat asks more of the panel than it can spare.
    PanelTooSmall {
        /// The option's name.
        option: String,
        /// What it asks, 125 % of the current at 240 V, A.
        asked_a: f64,
        /// What the panel can spare, A.
        spare_a: f64,
    },
    /// A store of a delivered fuel that a reader must know of.
    Store {
        /// The option's name.
        option: String,
        /// The store's name.
        store: String,
        /// What of it.
        what: StoreNote,
    },
    /// Hours by temperature have no days, so no store was counted.
    StoresNotCounted,
    /// Something about the prices.
    Price(PriceNote),
    /// What a scenario's changed job is told.
    OfScenario {
        /// The scenario's name.
        scenario: String,
        /// The note.
        note: Box<Note>,
    },
}

impl Note {
    /// Whether it asks to look at something that may be wrong; the others only tell.
    pub fn asks(&self) -> bool {
        match self {
            Self::Mismatch(_)
            | Self::Slip(_)
            | Self::Tenfold(_)
            | Self::Disproportion(_)
            | Self::Efficiency(_)
            | Self::Unlikely(_)
            | Self::Doubt(_)
            | Self::PastBill(_)
            | Self::Weather(_) => true,
            Self::Oddity(odd) => odd.asks(),
            Self::OfScenario { note, .. } => note.asks(),
            Self::Reading(remark) => asks_of_reading(remark),
            Self::Store { what, .. } => {
                matches!(what, StoreNote::OrderedLate { .. } | StoreNote::NoRoomForDrop { .. })
            }
            Self::Label { own, .. } => own.is_some(),
            Self::ExtremesNotCovered(_)
            | Self::RecordLow { .. }
            | Self::TypicalYear
            | Self::SyntheticYear { .. }
            | Self::DoesNotCool { .. }
            | Self::WintersLeftOut { .. }
            | Self::WeatherFilled { .. }
            | Self::OneOfRecord { .. }
            | Self::SiteOffset { .. }
            | Self::ClockUnknown
            | Self::BinsOnly
            | Self::NoDataBelow { .. }
            | Self::Guessed { .. }
            | Self::CutOut { .. }
            | Self::BetterLockout(_)
            | Self::EconomicBalance { .. }
            | Self::PanelUnknown { .. }
            | Self::PanelCarries { .. }
            | Self::PanelTooSmall { .. }
            | Self::StoresNotCounted
            | Self::Price(_) => false,
        }
    }
}

fn asks_of_reading(remark: &Remark) -> bool {
    match remark {
        Remark::Labels(_)
        | Remark::OtherStation { .. }
        | Remark::CutTimes { .. }
        | Remark::OffsetsDiffer { .. }
        | Remark::OffsetsNotUtc { .. } => true,
        Remark::Windows1252
        | Remark::LinesAbove { .. }
        | Remark::UnitsBelow { .. }
        | Remark::ColumnDropped { .. }
        | Remark::Shifted { .. }
        | Remark::OffsetFromLongitude { .. }
        | Remark::OffsetFromTimes { .. }
        | Remark::ClockUnsaid
        | Remark::EndOfHour
        | Remark::NoYear
        | Remark::Averaged { .. }
        | Remark::TakenAsKelvin { .. }
        | Remark::FilledByDays { .. }
        | Remark::NoLeapDay { .. }
        | Remark::TakenAsTypical
        | Remark::EmptyRows { .. }
        | Remark::LeftOut { .. }
        | Remark::Turned { .. } => false,
    }
}

/// A remark on prices.
#[derive(Debug, Clone, PartialEq)]
pub enum PriceNote {
    /// A machine was switched off by the interruptible heating rate.
    Interrupted {
        /// The machine's name.
        machine: String,
        /// Hours of the year.
        hours: usize,
    },
    /// What a year's use adds to a price was taken from the use of this very year.
    YearlyUseOfThisYear {
        /// The fuel's name.
        fuel: String,
    },
    /// The price of electricity has tiers or a demand charge, and the household's own use is not given.
    HeatAloneOnTiers,
    /// Who gave a price.
    Source {
        /// The fuel's name.
        fuel: String,
        /// Whether it is the rate for heating.
        heating: bool,
        /// What the job says; nothing where it says nothing.
        source: Option<String>,
    },
}

/// Why the weather does not tell how cold it can get.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Uncovered {
    /// A typical year leaves out the coldest winters.
    TypicalYear,
    /// Bins are of one year, or of a typical one.
    Bins,
    /// One year is one winter, or two halves.
    OneYear,
    /// A record's winters are too few; how many it has.
    FewWinters(usize),
}

/// A lock-out at which two heaters that take turns would cost clearly less.
#[derive(Debug, Clone, PartialEq)]
pub struct BetterLockout {
    /// The option's name.
    pub option: String,
    /// The zone's name.
    pub zone: String,
    /// The lock-out it has, °C.
    pub own_lockout_c: f64,
    /// The cheapest of those tried, °C; nothing for none.
    pub lockout_c: Option<f64>,
    /// How much less it costs in a year, in the job's currency.
    pub saved: f64,
}

/// What hardly goes together.
#[derive(Debug, Clone, PartialEq)]
pub enum Mismatch {
    /// A zone that needs no heat until it is much colder outdoors than in.
    OddBalance {
        /// The zone's name.
        zone: String,
        /// Its balance temperature, °C.
        balance_c: f64,
    },
    /// A design temperature far from what the weather has.
    DesignOfAnotherPlace {
        /// The zone's name.
        zone: String,
        /// Its design temperature, °C.
        design_c: f64,
        /// What the weather is colder than in 1 % of its hours, °C.
        weather_c: f64,
        /// The unit in which the same number would fit.
        fits: Option<Degree>,
    },
    /// A time zone whose standard time is not that of the weather file.
    OtherTimeZone {
        /// The zone's name.
        zone: &'static str,
        /// Its standard time, hours from UTC.
        zone_h: f64,
        /// The weather file's, hours from UTC.
        weather_h: f64,
    },
    /// The coldest night to plan for is warmer than an hour of the weather.
    WarmExtremeLow {
        /// What the job gives, °C.
        extreme_low_c: f64,
        /// The weather's coldest hour, °C.
        coldest_c: f64,
    },
    /// A monthly mean that does not go with those of its neighbours.
    OddMonth(OddMonth),
    /// The house stands much higher or lower than the weather station.
    FarFromStationHeight {
        /// The house, m.
        site_m: f64,
        /// The station, m.
        station_m: f64,
    },
    /// Resistance heat comes before a heat pump, which then has little to do.
    ResistanceFirst {
        /// The option's name.
        option: String,
        /// The zone's name.
        zone: String,
    },
    /// A price spike that holds for most of the year.
    LongSpike {
        /// The fuel's name.
        fuel: String,
        /// The spike's name.
        spike: String,
        /// Days on which it holds.
        days: usize,
    },
}

/// A bill of the past far from what is calculated, in the fuel's selling unit.
#[derive(Debug, Clone, PartialEq)]
pub struct PastBillOff {
    /// Its first day.
    pub from: chrono::NaiveDate,
    /// The day after its last.
    pub to: chrono::NaiveDate,
    /// What was used.
    pub used: f64,
    /// What is calculated.
    pub calculated: f64,
    /// The unit.
    pub unit: String,
}

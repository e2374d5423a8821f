//! The `[[option]]` and `[prices]` tables as typed; field names are the keys.
//!
//! Must never know what an option costs. Start at [`OptionSection`] and [`PricesSection`].

use super::household::HouseholdMachines;
use super::money::PriceText;
use super::typed::Typed;
use crate::calendar::MonthDay;
use crate::units::Temperature;

/// One `[[option]]`: one way to heat and cool the house.
#[derive(Debug, Clone, PartialEq)]
pub struct OptionSection {
    /// `name`: unique among the options.
    pub name: Typed<String>,
    /// `hot_water`, `dryer` and `range`: the machines of this option where they are not the household's.
    pub household: HouseholdMachines,
    /// `[[option.zone]]`: one for each zone of the house, in the order typed.
    pub zone: Vec<OptionZoneSection>,
}

/// One `[[option.zone]]`: the machines of one zone.
#[derive(Debug, Clone, PartialEq)]
pub struct OptionZoneSection {
    /// `zone`: the name of a zone of the house.
    pub zone: Typed<String>,
    /// `heating`: machines in order, at least one; each adds what those before it lack.
    pub heating: Typed<Vec<Typed<String>>>,
    /// `cooling`: one machine.
    pub cooling: Option<Typed<String>>,
    /// `compressor_lockout`: colder outdoors than this, heat pumps stay off.
    pub compressor_lockout: Option<Typed<Temperature>>,
    /// `sharing`: how two machines share an hour.
    pub sharing: Option<Typed<Sharing>>,
    /// `changeover`: by what rule hours go to heat pump or furnace.
    pub changeover: Option<Typed<ChangeoverRule>>,
    /// `staged_recovery`: whether strips are held back while a room recovers from a set-back.
    pub staged_recovery: Option<Typed<bool>>,
}

/// `changeover`: by what rule hours go to heat pump or furnace.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChangeoverRule {
    /// By the outdoor temperature and what the heat pump can carry.
    Temperature,
    /// To whichever heats for less in the hour.
    Cost,
}

/// `sharing`: how heat pump and furnace share an hour that the heat pump cannot carry.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sharing {
    /// One after the other within the hour.
    InTime,
    /// The furnace takes the whole hour.
    WholeHour,
}

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
    /// `fixed`: so much a month whatever is used; `per` is `month`.
    pub fixed: Option<Typed<PriceText>>,
    /// `price` or `price_by_month`: exactly one of the two.
    pub price: PriceSection,
    /// `source`: where the prices come from.
    pub source: Option<Typed<String>>,
    /// `spike`: named times at which the price is higher (or lower).
    pub spike: Vec<SpikeSection>,
}

/// One price for the year, or twelve.
#[derive(Debug, Clone, PartialEq)]
pub enum PriceSection {
    /// `price`: the same in every month.
    Flat(Typed<PriceText>),
    /// `price_by_month`: January to December, in this order whatever the order of the text.
    ByMonth(Box<Typed<[Typed<PriceText>; 12]>>),
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

//! The `[[option]]` tables as typed; field names are the keys.
//!
//! Must never know what an option costs. Start at [`OptionSection`].

use super::costs::OptionCosts;
use super::household::HouseholdMachines;
use super::typed::Typed;
use crate::units::Temperature;

/// One `[[option]]`: one way to heat and cool the house.
#[derive(Debug, Clone, PartialEq)]
pub struct OptionSection {
    /// `name`: unique among the options.
    pub name: Typed<String>,
    /// `hot_water`, `dryer` and `range`: the machines of this option where they are not the household's.
    pub household: HouseholdMachines,
    /// `supply`: names of the stores it burns from; of a fuel that none of them holds, the first.
    pub supply: Vec<Typed<String>>,
    /// `cost`, `incentive`, `loan` and `upkeep`.
    pub costs: OptionCosts,
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

//! The `[[equipment]]` tables of what burns in a boiler, a wall heater or a stove, as typed; field
//! names are the keys.
//!
//! Must never know what a machine does. Start at [`BoilerSection`].

use super::typed::Typed;
use crate::calendar::MonthDay;
use crate::units::Power;

/// Keys of a boiler.
#[derive(Debug, Clone, PartialEq)]
pub struct BoilerSection {
    /// `fuel`: a fuel's id; the job has a price for it.
    pub fuel: Typed<String>,
    /// `input`: fuel burned at full fire, more than 0.
    pub input: Typed<Power>,
    /// `afue`: 0.5 to 1.
    pub afue: Typed<f64>,
    /// `pump`: draw of the circulating pumps while it runs, 0 or more.
    pub pump: Option<Typed<Power>>,
    /// `turndown`: least steady output as a share of the full one, 0.1 to 1.
    pub turndown: Option<Typed<f64>>,
    /// `altitude_factor`: on input and output, 0.3 to 1.
    pub altitude_factor: Option<Typed<f64>>,
    /// `standby`: 0 or more.
    pub standby: Option<Typed<Power>>,
}

/// Keys of a wall heater.
#[derive(Debug, Clone, PartialEq)]
pub struct WallHeaterSection {
    /// `fuel`: a fuel's id; the job has a price for it.
    pub fuel: Typed<String>,
    /// `input`: fuel burned at full fire, more than 0.
    pub input: Typed<Power>,
    /// `efficiency` of the burner while it runs, the pilot's burning in between left out; 0.4 to 1.
    pub efficiency: Typed<f64>,
    /// `pilot`: what a standing pilot burns.
    pub pilot: Option<Typed<Power>>,
    /// `pilot_from` and `pilot_to`: first and last day on which it is lit; both or none.
    pub pilot_lit: Option<(Typed<MonthDay>, Typed<MonthDay>)>,
    /// `altitude_factor`: on input and output, 0.3 to 1.
    pub altitude_factor: Option<Typed<f64>>,
    /// `standby`: 0 or more.
    pub standby: Option<Typed<Power>>,
}

/// Keys of a stove.
#[derive(Debug, Clone, PartialEq)]
pub struct StoveSection {
    /// `fuel`: a fuel's id; the job has a price for it.
    pub fuel: Typed<String>,
    /// `input`: fuel burned at full fire, more than 0.
    pub input: Typed<Power>,
    /// `efficiency` over a whole fire, 0.4 to 1.
    pub efficiency: Typed<f64>,
    /// `daily_fuelling`: the most fuel laid in from midnight to midnight, a number and a unit of
    /// energy or of the fuel, not yet looked up.
    pub daily_fuelling: Option<Typed<String>>,
    /// `power` of feed motor and fans while it burns, 0 or more; a pellet stove only.
    pub power: Option<Typed<Power>>,
}

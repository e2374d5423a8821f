//! Electric strips: power into current, circuits and what the panel says.
//!
//! Start at [`Strips`].

use super::carried::carried;
use crate::equipment::{Machine, MachineKind};
use crate::load::Zone;
use crate::simulation::design::ZoneDesign;

/// Voltage at which strips are rated, V.
pub const RATED_V: f64 = 240.0;
/// A circuit carries a steady load of 100/125 of its size; common practice, from the electrical code.
pub const STEADY_LOAD_FACTOR: f64 = 1.25;
/// Share of the rated power left at 208 V; common practice for (208/240)² = 0.751.
pub const SHARE_AT_208_V: f64 = 0.75;
/// Elements are divided so that no circuit carries more of them, A; common practice, from the
/// electrical code.
pub const MOST_ELEMENTS_A: f64 = 48.0;

/// Resistance heat of so many kW at 240 V.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strips {
    /// Power, kW, 0 or more.
    pub kw: f64,
}

/// Whether the panel carries more.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Panel {
    /// Nothing electric is asked of it.
    NothingAsked,
    /// It does; so much is left, A.
    Carries(f64),
    /// It does not; so much is lacking, A.
    TooSmall(f64),
    /// The job does not say what the panel can spare.
    Unknown,
}

impl Strips {
    /// No strips.
    pub const NONE: Self = Self { kw: 0.0 };

    /// Current at 240 V, A.
    ///
    /// ```
    /// use winterledger::coldnight::strips::Strips;
    /// let strips = Strips { kw: 15.0 };
    /// assert_eq!(strips.amps(), 62.5); // 15,000 W / 240 V
    /// assert_eq!(strips.amps_with_margin(), 78.125);
    /// assert_eq!(strips.kw_at_208_v(), 11.25);
    /// assert_eq!(strips.circuits(), 2); // at most 48 A each
    /// ```
    pub fn amps(self) -> f64 {
        1000.0 * self.kw / RATED_V
    }

    /// 125 % of the current, which wires and breakers are sized for, A.
    pub fn amps_with_margin(self) -> f64 {
        STEADY_LOAD_FACTOR * self.amps()
    }

    /// What is left of the power on a 208 V supply, kW.
    pub fn kw_at_208_v(self) -> f64 {
        SHARE_AT_208_V * self.kw
    }

    /// Circuits needed, none with more than 48 A of elements.
    pub fn circuits(self) -> usize {
        // Exactly 48 A is one circuit, whatever the rounding.
        (self.amps() / MOST_ELEMENTS_A - 1e-9).ceil().max(0.0) as usize
    }

    /// Whether a panel with `spare_a` to spare carries 125 % of the current.
    pub fn panel(self, spare_a: Option<f64>) -> Panel {
        let asked = self.amps_with_margin();
        match spare_a {
            _ if asked <= 0.0 => Panel::NothingAsked,
            None => Panel::Unknown,
            Some(spare) if asked <= spare * (1.0 + 1e-9) => Panel::Carries((spare - asked).max(0.0)),
            Some(spare) => Panel::TooSmall(asked - spare),
        }
    }
}

/// Strips that a zone would need at one outdoor temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StripsAt {
    /// Outdoor temperature, °C.
    pub outdoor_c: f64,
    /// For what the first machine lacks of the load.
    pub shortfall: Strips,
    /// For the whole load, as if the first machine were off.
    pub whole: Strips,
}

impl StripsAt {
    /// For the load of `zone` from indoors to outdoors, gains not deducted, as load calculations and
    /// those who size strips have it; they sit in the ducts where the first machine has ducts, and lose
    /// as much there.
    pub fn new(zone: &Zone, design: &ZoneDesign, machines: &[Machine], outdoor_c: f64) -> Self {
        let at = carried(zone, design, machines, outdoor_c);
        let first = design.heaters.first().and_then(|i| machines.get(*i));
        let ducted = first.is_some_and(|m| m.ducted);
        let (kept, lost_kw) = if ducted { zone.ducts_at(outdoor_c) } else { (1.0, 0.0) };
        // What the ducts lose beside their share, they lose once: with the first machine if it runs.
        let beside = if at.first_capacity_kw > 0.0 { 0.0 } else { lost_kw };
        let strips = |kw: f64, lost: f64| Strips { kw: if kw > 0.0 { (kw + lost) / kept } else { 0.0 } };
        let load_kw = zone.loss_kw_k * (zone.indoor_c - outdoor_c);
        let shortfall = strips(load_kw - at.first_capacity_kw, beside);
        Self { outdoor_c, shortfall, whole: strips(load_kw, lost_kw) }
    }
}

/// All resistance heat that a zone has.
pub(super) fn installed(design: &ZoneDesign, machines: &[Machine]) -> Strips {
    let heaters = design.heaters.iter().filter_map(|i| machines.get(*i));
    let electric = heaters.filter(|m| m.kind == MachineKind::Resistance);
    Strips { kw: electric.flat_map(|m| &m.stages_kw).sum() }
}

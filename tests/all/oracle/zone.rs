//! The oracle's zone: what the room needs, where it goes, and with which machines.
//!
//! Temperatures °C, powers kW. Imports nothing from the crate. Start at [`Zone`].

use super::machine::{HeatPump, Placed};

/// How the zone is cooled.
#[derive(Debug, Clone)]
pub(crate) struct Cooling {
    pub(crate) loss: f64,
    /// `loss · (set point − cooling balance temperature)`.
    pub(crate) gains: f64,
    pub(crate) balance: f64,
    pub(crate) set_point: f64,
    pub(crate) machine: Option<CoolingMachine>,
}

/// What cools a zone.
#[derive(Debug, Clone)]
pub(crate) struct CoolingMachine {
    /// Its rows hold total capacity.
    pub(crate) pump: HeatPump,
    pub(crate) duct_efficiency: f64,
    pub(crate) sensible_share: f64,
    /// Which of the run's outdoor units it hangs on.
    pub(crate) unit: Option<usize>,
    /// True where it is the lead heating machine: standby is then drawn once.
    pub(crate) is_the_lead: bool,
}

/// The second machine of a changeover.
#[derive(Debug, Clone)]
pub(crate) struct Alternate {
    pub(crate) placed: Placed,
    /// Colder than this outdoors, only the alternate runs.
    pub(crate) lock_out: f64,
    pub(crate) whole_hour: bool,
}

/// One zone of the house with its machines.
#[derive(Debug, Clone)]
pub(crate) struct Zone {
    pub(crate) loss: f64,
    pub(crate) gains: f64,
    pub(crate) heat_capacity: f64,
    /// Heating set point, one an hour.
    pub(crate) set_points: Vec<f64>,
    pub(crate) vent: f64,
    pub(crate) cooling: Option<Cooling>,
    pub(crate) lead: Placed,
    pub(crate) alternate: Option<Alternate>,
    pub(crate) auxiliary: Vec<Placed>,
    pub(crate) tempering: Option<Tempering>,
}

/// What warms the air while the lead, a heat pump, defrosts.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Tempering {
    /// Strips of so many kW; `None`: the alternate, or the auxiliary at `bank`, a furnace.
    pub(crate) strips: Option<f64>,
    /// Minutes of it in each so many that the heat pump runs.
    pub(crate) minutes: f64,
    pub(crate) of_minutes: f64,
    /// The auxiliary, resistance heat, whose strips they are; or the furnace that does it.
    pub(crate) bank: Option<usize>,
}

/// What several heads hang on.
#[derive(Debug, Clone)]
pub(crate) struct OutdoorUnit {
    /// What it gives to all of them together; its powers are nobody's.
    pub(crate) heating: HeatPump,
    /// The same of total cooling, where it is known.
    pub(crate) cooling: Option<HeatPump>,
}

/// What all zones have in common.
#[derive(Debug, Clone, Default)]
pub(crate) struct Shared {
    pub(crate) stores: Vec<Store>,
    pub(crate) units: Vec<OutdoorUnit>,
    /// °C, one an hour, where the weather has it.
    pub(crate) dew_points: Option<Vec<f64>>,
}

/// A stored fuel and what may be burnt of it.
#[derive(Debug, Clone)]
pub(crate) struct Store {
    /// Greatest kW, one an hour.
    pub(crate) greatest: Vec<f64>,
    /// At the start of these hours, what is left becomes this many kWh.
    pub(crate) left_at: Vec<(usize, f64)>,
}

/// The room's temperature after one hour at constant heat.
///
/// Written as a rise: `final_room` alone can be hundreds of degrees, and its rounding would stay.
pub(crate) fn room_after(room: f64, outdoor: f64, loss: f64, heat: f64, capacity: f64) -> f64 {
    if loss == 0.0 {
        return room + heat / capacity;
    }
    let final_room = outdoor + heat / loss;
    room + (final_room - room) * (1.0 - (-loss / capacity).exp())
}

/// The room's mean over that hour.
pub(crate) fn room_mean(room: f64, outdoor: f64, loss: f64, heat: f64, capacity: f64) -> f64 {
    if loss == 0.0 {
        return room + heat / capacity / 2.0;
    }
    let final_room = outdoor + heat / loss;
    let hours = loss / capacity;
    final_room + (room - final_room) * (1.0 - (-hours).exp()) / hours
}

/// Heat, gains included, that brings the room to `wanted` at the end of the hour.
pub(crate) fn heat_to_reach(wanted: f64, room: f64, outdoor: f64, loss: f64, capacity: f64) -> f64 {
    if loss == 0.0 {
        return (wanted - room) * capacity;
    }
    let decay = (-loss / capacity).exp();
    let final_room = (wanted - room * decay) / (1.0 - decay);
    loss * (final_room - outdoor)
}

impl Zone {
    pub(crate) fn machines(&self) -> Vec<&Placed> {
        let mut all = vec![&self.lead];
        all.extend(self.alternate.as_ref().map(|alternate| &alternate.placed));
        all.extend(&self.auxiliary);
        all
    }

    pub(crate) fn cools_at(&self, outdoor: f64) -> Option<&Cooling> {
        self.cooling.as_ref().filter(|cooling| outdoor > cooling.balance)
    }

    pub(crate) fn loss_and_gains(&self, outdoor: f64) -> (f64, f64) {
        match self.cools_at(outdoor) {
            Some(cooling) => (cooling.loss, cooling.gains),
            None => (self.loss, self.gains),
        }
    }

    /// Heat that the hour needs to end at the heating set point, from a room at `room`.
    pub(crate) fn need(&self, h: usize, outdoor: f64, room: f64) -> f64 {
        let (loss, gains) = self.loss_and_gains(outdoor);
        let set_point = self.set_points[h];
        let heat = if self.heat_capacity == 0.0 {
            loss * (set_point - outdoor)
        } else {
            heat_to_reach(set_point, room, outdoor, loss, self.heat_capacity)
        };
        (heat - gains).max(0.0)
    }

    /// The room after an hour: its end behind open windows, and its mean behind shut ones.
    pub(crate) fn after(&self, outdoor: f64, room: f64, heat: f64) -> (f64, f64) {
        let (loss, gains) = self.loss_and_gains(outdoor);
        let end = room_after(room, outdoor, loss, heat + gains, self.heat_capacity);
        let mean = room_mean(room, outdoor, loss, heat + gains, self.heat_capacity);
        (end.min(self.vent.max(outdoor)), mean)
    }
}

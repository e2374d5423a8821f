//! How one machine comes to its draw, and two weighed against each other.
//!
//! Start at [`Running`].

/// How a machine's draw comes about.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Running {
    /// It is off or asked for nothing; a pilot may burn.
    Off,
    /// It cycles below its least output: `draw = share·power/(1 − C_D·(1 − share))`.
    Cycling {
        /// Least output.
        least_kw: f64,
        /// Draw at the least output.
        power_least_kw: f64,
        /// Cycling loss.
        cycling_loss: f64,
        /// `heat/least`.
        share: f64,
        /// `1 − C_D·(1 − share)`.
        part_load_factor: f64,
    },
    /// Between two outputs of its map: `draw = power + slope·(heat − output)`.
    Between {
        /// The output below.
        from_kw: f64,
        /// The draw there.
        power_kw: f64,
        /// Further draw for each further kW: `(to power − power)/(to − output)`.
        slope: f64,
        /// The output above.
        to_kw: f64,
        /// The draw there.
        to_power_kw: f64,
    },
}

impl Running {
    /// Share of its time in which it runs, 0 to 1.
    pub fn share(&self) -> f64 {
        match self {
            Self::Off => 0.0,
            Self::Cycling { share, .. } => *share,
            Self::Between { .. } => 1.0,
        }
    }
}

/// Two heaters that take turns by cost, weighed in one hour.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighed {
    /// The first, which a tie goes to.
    pub first: Candidate,
    /// The second.
    pub second: Candidate,
    /// Whether the second heats for less.
    pub second_wins: bool,
}

/// What one heater would do for the whole need and what that is worth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Candidate {
    /// How its draw comes about.
    pub how: Running,
    /// Heat at the machine.
    pub heat_kw: f64,
    /// What of it reaches the room.
    pub in_room_kw: f64,
    /// Draw of its own fuel.
    pub draw_kw: f64,
    /// Electricity beside it.
    pub side_kw: f64,
    /// Electricity that stands for what a furnace burns to temper its air.
    pub instead_kw: f64,
    /// What a kWh of its fuel is worth.
    pub worth: f64,
    /// What a kWh of electricity is worth.
    pub side_worth: f64,
    /// `draw·worth + (side + instead)·side worth`.
    pub cost: f64,
    /// The same for each kWh in the room, where there is any.
    pub cost_per_kwh: Option<f64>,
}

//! A zone: loss, gains, heat capacity, set points, and what it needs when it is cold or hot outside.
//!
//! Knows no machine. Start at [`Zone`].

use super::ducts::DuctLine;
use crate::calendar::Stamp;

/// One zone of the house.
#[derive(Debug, Clone, PartialEq)]
pub struct Zone {
    /// The job's name for it.
    pub name: String,
    /// Heat loss rate, kW/K; above zero.
    pub loss_kw_k: f64,
    /// Gains while heating, kW.
    pub gains_kw: f64,
    /// Heat capacity, kWh/K; 0 for the steady line.
    pub heat_capacity_kwh_k: f64,
    /// Indoor temperature of the design, °C.
    pub indoor_c: f64,
    /// Outdoor temperature of the design, °C.
    pub design_temperature_c: f64,
    /// Outdoor temperature at which gains balance losses, °C.
    pub balance_temperature_c: f64,
    /// Heating set points by the clock.
    pub heating: Schedule,
    /// Windows are opened above this, °C.
    pub vent_c: f64,
    /// What it needs in summer, if the job says.
    pub cooling: Option<CoolingNeed>,
    /// Share of a ducted machine's heat, or cold, that reaches the rooms, above 0 to 1; heat goes by
    /// [`Self::duct_line`] where there is one.
    pub duct_efficiency: f64,
    /// What the ducts keep of a machine's heat by its output, where the job says what they are like.
    pub duct_line: Option<DuctLine>,
}

/// What a zone needs in summer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoolingNeed {
    /// Sensible gain for each kelvin outdoors, kW/K.
    pub loss_kw_k: f64,
    /// Gains, kW, such that the need is nil at the balance temperature.
    pub gains_kw: f64,
    /// Outdoor temperature above which these figures hold and cooling is needed, °C.
    pub balance_temperature_c: f64,
    /// Cooling set point, °C.
    pub set_point_c: f64,
    /// Outdoor temperature of the cooling design, °C.
    pub design_temperature_c: f64,
}

/// Set points by the clock.
#[derive(Debug, Clone, PartialEq)]
pub struct Schedule {
    /// The set point outside every set-back, °C.
    pub set_point_c: f64,
    /// Hours of another set point.
    pub set_backs: Vec<SetBack>,
}

/// A daily span of clock time with its own set point; it may cross midnight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SetBack {
    /// First minute of the day, 0 to 1,439.
    pub from_minute: u32,
    /// The minute it ends, itself excluded.
    pub to_minute: u32,
    /// The set point, °C.
    pub set_point_c: f64,
}

impl Schedule {
    /// The set point (°C) of the hour that begins at `stamp`.
    ///
    /// ```
    /// use winterledger::calendar::Stamp;
    /// use winterledger::load::{Schedule, SetBack};
    /// let night = SetBack { from_minute: 22 * 60, to_minute: 6 * 60, set_point_c: 18.0 };
    /// let schedule = Schedule { set_point_c: 21.0, set_backs: vec![night] };
    /// let at = |hour| schedule.at(Stamp { month: 1, day: 1, hour, weekday: 0 });
    /// assert_eq!((at(21), at(22), at(5), at(6)), (21.0, 18.0, 18.0, 21.0));
    /// ```
    pub fn at(&self, stamp: Stamp) -> f64 {
        let minute = u32::from(stamp.hour) * 60;
        self.set_backs.iter().find(|s| s.holds(minute)).map_or(self.set_point_c, |s| s.set_point_c)
    }

    /// The same without set-backs: the highest of its set points all the time.
    pub fn without_set_backs(&self) -> Self {
        let others = self.set_backs.iter().map(|s| s.set_point_c);
        Self { set_point_c: others.fold(self.set_point_c, f64::max), set_backs: Vec::new() }
    }
}

impl SetBack {
    fn holds(&self, minute: u32) -> bool {
        if self.from_minute < self.to_minute {
            (self.from_minute..self.to_minute).contains(&minute)
        } else {
            minute >= self.from_minute || minute < self.to_minute
        }
    }
}

impl Zone {
    /// Share of a temperature difference left after one hour, for a loss rate of this zone.
    pub fn decay(&self, loss_kw_k: f64) -> f64 {
        // C = 0 gives exp(−∞) = 0, the steady line.
        (-loss_kw_k / self.heat_capacity_kwh_k).exp()
    }

    /// Steady heating need (kW) at `outdoor_c` and the ordinary set point; never below 0.
    ///
    /// `max(0, loss·(set point − T_out) − gains)`.
    pub fn steady_need_kw(&self, outdoor_c: f64) -> f64 {
        (self.loss_kw_k * (self.heating.set_point_c - outdoor_c) - self.gains_kw).max(0.0)
    }

    /// What the ducts do to heat while air moves and it is `outdoor_c` outside: the share that they keep,
    /// and what they lose beside it, kW.
    pub fn ducts_at(&self, outdoor_c: f64) -> (f64, f64) {
        self.duct_line.map_or((self.duct_efficiency, 0.0), |line| (line.kept, line.lost_kw(outdoor_c)))
    }

    /// The steady need at `outdoor_c` over that at the design temperature; 0 where that is nothing.
    pub fn design_share(&self, outdoor_c: f64) -> f64 {
        let design = self.steady_need_kw(self.design_temperature_c);
        if design > 0.0 { self.steady_need_kw(outdoor_c) / design } else { 0.0 }
    }

    /// The steady cooling need at `outdoor_c` over that at its design temperature; 0 without any.
    pub fn cooling_design_share(&self, outdoor_c: f64) -> f64 {
        let design = self.cooling.map_or(0.0, |c| self.steady_cooling_kw(c.design_temperature_c));
        if design > 0.0 { self.steady_cooling_kw(outdoor_c) / design } else { 0.0 }
    }

    /// Steady sensible cooling need (kW) at `outdoor_c`; 0 where the job gives no cooling.
    pub fn steady_cooling_kw(&self, outdoor_c: f64) -> f64 {
        let over = |c: &CoolingNeed| (c.loss_kw_k * (outdoor_c - c.balance_temperature_c)).max(0.0);
        self.cooling.as_ref().map_or(0.0, over)
    }

    /// The design heat loss (kW), gains not deducted.
    pub fn design_load_kw(&self) -> f64 {
        self.loss_kw_k * (self.indoor_c - self.design_temperature_c)
    }
}

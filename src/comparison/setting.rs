//! What every option of a job is run with.
//!
//! Start at [`Setting`].

use crate::coldnight::{Basis, House};
use crate::equipment::Machine;
use crate::fuel::Fuels;
use crate::load::Zone;
use crate::prices::Prices;
use crate::simulation::frost::FrostShares;
use crate::simulation::hour_map::HourMaps;
use crate::supply::Supplies;
use crate::weather::Bin;

/// What every option of a job shares.
pub struct Setting<'a> {
    /// The zones.
    pub zones: &'a [Zone],
    /// The machines.
    pub machines: &'a [Machine],
    /// The prices.
    pub prices: &'a Prices,
    /// The stores of delivered fuels.
    pub supplies: &'a Supplies,
    /// The fuels.
    pub fuels: &'a Fuels,
    /// The weather by bins.
    pub bins: &'a [Bin],
    /// How often frost is melted in each of them.
    pub frost: FrostShares,
    /// The coldest night to plan for, °C.
    pub extreme_low_c: Option<f64>,
    /// Height above sea level, m, where it is known.
    pub elevation_m: Option<f64>,
    /// What the coldest night needs to know beside.
    pub basis: &'a Basis,
    /// Hour maps that are made already, where several runs share them.
    pub maps: Option<&'a HourMaps>,
}

impl<'a> Setting<'a> {
    /// The house as the coldest night sees it.
    pub(super) fn house(&self) -> House<'a> {
        House {
            zones: self.zones,
            machines: self.machines,
            basis: self.basis,
            extreme_low_c: self.extreme_low_c,
            elevation_m: self.elevation_m,
        }
    }
}

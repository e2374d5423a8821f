//! How warm the air from the registers is: the room's temperature and the heat over the airflow.
//!
//! Start at [`of_zone`].

use super::House;
use crate::equipment::{Machine, Presence};
use crate::load::Zone;
use crate::load::air::kw_per_m3_s_k;
use crate::simulation::design::ZoneDesign;
use crate::simulation::source::heating_source_c;
use crate::units::{CUBIC_METRES_PER_SECOND_PER_CFM, fahrenheit_to_celsius};

/// Outdoor temperatures at which supply air is told beside the design's, °F.
pub const SUPPLY_AIR_AT_F: [f64; 3] = [47.0, 17.0, 5.0];

/// What a 6-inch round run of smooth pipe carries, m³/s (100 cfm); common practice.
const SIX_INCH_RUN_M3_S: f64 = 100.0 * CUBIC_METRES_PER_SECOND_PER_CFM;

/// How many 6-inch round runs of smooth pipe so much air (m³/s) asks for.
///
/// ```
/// use winterledger::coldnight::supply_air::six_inch_runs;
/// use winterledger::units::{Airflow, Quantity};
/// // Common practice: 12 runs for 3 tons of 400 cfm.
/// assert_eq!(six_inch_runs(Airflow::parse("1200 cfm").unwrap().base()), 12.0);
/// ```
pub fn six_inch_runs(airflow_m3_s: f64) -> f64 {
    // Just 12 runs' air is 12 runs, whatever the rounding.
    (airflow_m3_s / SIX_INCH_RUN_M3_S - 1e-9).ceil()
}

/// The air one ducted machine gives at full output.
#[derive(Debug, Clone, PartialEq)]
pub struct SupplyAir {
    /// Its place in the list of machines.
    pub machine: usize,
    /// Airflow, m³/s.
    pub airflow_m3_s: f64,
    /// Air temperature at [`SUPPLY_AIR_AT_F`], °C, in that order; nothing where the machine is off.
    pub supply_c: [Option<f64>; 3],
    /// The same at the design temperature.
    pub at_design_c: Option<f64>,
}

/// Supply air of each ducted heater of a zone at full output: `room + Q/(factor·airflow)`; none where
/// it is off or locked out.
pub fn of_zone(zone: &Zone, design: &ZoneDesign, house: &House<'_>) -> Vec<SupplyAir> {
    let lockout_c = design.changeover.and_then(|c| c.compressor_lockout_c);
    let air = design.heaters.iter().enumerate().filter_map(|(place, i)| {
        let machine = house.machines.get(*i)?;
        let flow = house.basis.airflow(zone, design, place, house.machines)?.m3_s;
        let each_kelvin = flow * kw_per_m3_s_k(house.elevation_m);
        let at = |outdoor_c| {
            let locked_out = place == 0 && lockout_c.is_some_and(|t| outdoor_c < t);
            let source_c = heating_source_c(machine, zone, outdoor_c, None);
            let heat = full_output_kw(machine, source_c).filter(|_| !locked_out)?;
            Some(zone.heating.set_point_c + heat / each_kelvin)
        };
        Some(SupplyAir {
            machine: *i,
            airflow_m3_s: flow,
            supply_c: SUPPLY_AIR_AT_F.map(|f| at(fahrenheit_to_celsius(f))),
            at_design_c: at(zone.design_temperature_c),
        })
    });
    air.collect()
}

/// What a machine can give at most in a night whose cold has come, kW at the machine; nothing where it is
/// off, as it is between its cut-out and its cut-on.
fn full_output_kw(machine: &Machine, source_c: f64) -> Option<f64> {
    let heating = machine.heating.as_ref()?;
    let on = heating.presence(source_c, false) == Presence::On;
    on.then(|| heating.hour_at(source_c).greatest).filter(|kw| *kw > 0.0)
}

//! What a machine is told to do that no shop, maker or house does: a fire fed beyond what it burns, air that no duct
//! carries, a pilot lit in summer, defrosting without end, an order in which a machine never runs.
//!
//! Only remarks; each bound says where it comes from. Start at `unlikely`.

use super::Parts;
use crate::calendar::MonthDay;
use crate::equipment::MachineKind;
use crate::job::{EquipmentSection, HeatPumpSection, Job, MachineSection, StoveSection, Typed};
use crate::load::air::kw_per_m3_s_k;
use crate::simulation::design::OptionDesign;
use crate::simulation::from_job::defrost_minutes;
use crate::units::{Airflow, Quantity, fahrenheit_to_celsius};

/// Air that a heat pump warms by more, K (65 °F), is slower than any maker allows: at full output the rise is 25 to
/// 45 °F with the 300 to 450 cfm for each ton of common practice, up to some 55 °F in small-duct systems.
const PUMP_RISE_K: (f64, f64) = (12.0 / 1.8, 65.0 / 1.8);
/// The same of a flame: plates allow 30 to 70 °F of rise (common practice); 15 to 120 °F is asked about.
const BURNER_RISE_K: (f64, f64) = (15.0 / 1.8, 120.0 / 1.8);
/// Of strips only much is asked about: one stage of several is often small.
const STRIPS_RISE_K: (f64, f64) = (0.0, 120.0 / 1.8);
/// Of its output thin air leaves at least its own density's share, less this: a judgement, as machines lose less.
const BELOW_DENSITY: f64 = 0.12;
/// The same where nobody tells the height: 10,000 ft leave 0.69 of the density.
const LEAST_ALTITUDE_FACTOR: f64 = 0.6;
/// No house's machine works in more cold, °F: makers state −13 to −35 °F (from memory).
const COLDEST_CUT_OUT_F: f64 = -40.0;
/// Boards end a defrost after 10 minutes and wait at least 30 for the next (common practice).
const LONGEST_DEFROST: f64 = 1.0 / 3.0;
/// One load of a firebox burns for hours (common practice): less than this of a day's full fire, h, is asked about.
const LEAST_FIRE_H: f64 = 1.0;
/// So that rounding in another unit is no question.
const SLACK: f64 = 1e-6;

/// Something that hardly anybody means.
#[derive(Debug, Clone, PartialEq)]
pub enum Unlikely {
    /// A fire is laid with more than it can burn.
    StoveOverfed {
        /// The machine's name.
        machine: String,
        /// The day's fuelling, kWh.
        kwh: f64,
        /// What it burns in 24 hours at full fire, kWh.
        burns_kwh: f64,
    },
    /// A fire is laid with less than it burns in an hour.
    StoveUnderfed {
        /// The machine's name.
        machine: String,
        /// The day's fuelling, kWh.
        kwh: f64,
        /// What it burns in an hour at full fire, kWh.
        hour_kwh: f64,
    },
    /// Air that would get too hot, or hardly warm.
    OddAirflow {
        /// The machine's name.
        machine: String,
        /// Its airflow, m³/s.
        airflow_m3_s: f64,
        /// How much its greatest output warms that air, K.
        rise_k: f64,
        /// What is ordinary at least and at most, K.
        ordinary_k: (f64, f64),
    },
    /// A pilot that is out in the middle of the winter.
    PilotOutInWinter {
        /// The machine's name.
        machine: String,
        /// The days on which it is lit, first and last.
        lit: (MonthDay, MonthDay),
    },
    /// Thinner air than there is at that height.
    LowAltitudeFactor {
        /// The machine's name.
        machine: String,
        /// What is typed.
        factor: f64,
        /// The air's density there over that at sea level, if the height is known.
        density: Option<f64>,
    },
    /// A furnace or boiler comes before a heat pump.
    BurnerFirst {
        /// The option's name.
        option: String,
        /// The zone's name.
        zone: String,
        /// The burner's name.
        burner: String,
        /// The heat pump's name.
        pump: String,
    },
    /// A cut-out in more cold than any machine works in.
    ColdCutOut {
        /// The machine's name.
        machine: String,
        /// The cut-out, °C.
        at_c: f64,
    },
    /// Defrosting takes too large a share of the time.
    LongDefrost {
        /// The machine's name.
        machine: String,
        /// Minutes each time.
        minutes: f64,
        /// Minutes of running between two times.
        every: f64,
    },
    /// An indoor fan's draw that is not counted.
    FanCountedAlready {
        /// The machine's name.
        machine: String,
        /// Its draw, kW.
        kw: f64,
    },
}

/// Every such thing of the job, machines first.
pub(super) fn unlikely(job: &Job, parts: &Parts) -> Vec<Unlikely> {
    let mut found: Vec<Unlikely> =
        job.equipment.iter().flat_map(|section| of_machine(section, parts)).flatten().collect();
    found.extend(parts.designs.iter().flat_map(|design| burner_first(design, parts)));
    found
}

fn of_machine(section: &EquipmentSection, parts: &Parts) -> Vec<Option<Unlikely>> {
    let asks = Asks { name: &section.name.value, parts };
    match &section.kind.value {
        MachineSection::HeatPump(pump) => of_heat_pump(&asks, pump),
        MachineSection::AirConditioner(cooler) => vec![
            asks.altitude(cooler.altitude_factor.as_ref()),
            asks.fan(cooler.power_includes_indoor_fan.as_ref(), cooler.indoor_fan.as_ref()),
        ],
        MachineSection::Furnace(furnace) => vec![
            asks.air(furnace.airflow.as_ref(), BURNER_RISE_K),
            asks.altitude(furnace.altitude_factor.as_ref()),
        ],
        MachineSection::Boiler(boiler) => vec![asks.altitude(boiler.altitude_factor.as_ref())],
        MachineSection::WallHeater(heater) => vec![
            asks.altitude(heater.altitude_factor.as_ref()),
            heater.pilot_lit.as_ref().and_then(|(from, to)| asks.pilot((from.value, to.value))),
        ],
        MachineSection::WoodStove(stove) | MachineSection::PelletStove(stove) => vec![asks.stove(stove)],
        MachineSection::Resistance(strips) => vec![asks.air(strips.airflow.as_ref(), STRIPS_RISE_K)],
        MachineSection::OutdoorUnit(unit) => vec![asks.cut_out(unit.cut_out.as_ref().map(|t| t.base()))],
        MachineSection::WaterHeater(_) | MachineSection::Dryer(_) | MachineSection::Range(_) => Vec::new(),
    }
}

fn of_heat_pump(asks: &Asks<'_>, pump: &HeatPumpSection) -> Vec<Option<Unlikely>> {
    vec![
        asks.air(pump.airflow.as_ref(), PUMP_RISE_K),
        asks.altitude(pump.altitude_factor.as_ref()),
        asks.fan(pump.power_includes_indoor_fan.as_ref(), pump.indoor_fan.as_ref()),
        asks.cut_out(pump.cut_out.as_ref().map(|t| t.base())),
        asks.defrost(pump),
    ]
}

/// Makes the questions about one machine.
struct Asks<'a> {
    name: &'a str,
    parts: &'a Parts,
}

impl Asks<'_> {
    fn machine(&self) -> String {
        self.name.to_owned()
    }

    fn stove(&self, stove: &StoveSection) -> Option<Unlikely> {
        let machine = self.parts.machines.iter().find(|machine| machine.name == self.name)?;
        let kwh = machine.daily_fuelling_kwh?;
        let hour_kwh = LEAST_FIRE_H * stove.input.base();
        if kwh < hour_kwh * (1.0 - SLACK) {
            return Some(Unlikely::StoveUnderfed { machine: self.machine(), kwh, hour_kwh });
        }
        let burns_kwh = 24.0 * stove.input.base();
        let over = kwh > burns_kwh * (1.0 + SLACK);
        over.then(|| Unlikely::StoveOverfed { machine: self.machine(), kwh, burns_kwh })
    }

    fn air(&self, airflow: Option<&Typed<Airflow>>, ordinary_k: (f64, f64)) -> Option<Unlikely> {
        let airflow_m3_s = airflow?.base();
        let machine = self.parts.machines.iter().find(|machine| machine.name == self.name)?;
        let greatest_kw = machine.heating.as_ref()?.map.rows().last()?.greatest.capacity_kw;
        let rise_k = greatest_kw / (airflow_m3_s * kw_per_m3_s_k(self.parts.site.elevation_m));
        let odd = rise_k < ordinary_k.0 || rise_k > ordinary_k.1;
        odd.then(|| Unlikely::OddAirflow { machine: self.machine(), airflow_m3_s, rise_k, ordinary_k })
    }

    fn altitude(&self, factor: Option<&Typed<f64>>) -> Option<Unlikely> {
        let factor = factor?.value;
        let height = self.parts.site.elevation_m;
        let density = height.map(|_| kw_per_m3_s_k(height) / kw_per_m3_s_k(None));
        let low = factor < density.map_or(LEAST_ALTITUDE_FACTOR, |share| share - BELOW_DENSITY);
        low.then(|| Unlikely::LowAltitudeFactor { machine: self.machine(), factor, density })
    }

    fn pilot(&self, lit: (MonthDay, MonthDay)) -> Option<Unlikely> {
        let out = !lit.0.spans(lit.1, self.parts.basis.midwinter);
        out.then(|| Unlikely::PilotOutInWinter { machine: self.machine(), lit })
    }

    fn fan(
        &self,
        included: Option<&Typed<bool>>,
        fan: Option<&Typed<crate::units::Power>>,
    ) -> Option<Unlikely> {
        let kw = fan?.base();
        let counted = included.is_some_and(|included| included.value) && kw > 0.0;
        counted.then(|| Unlikely::FanCountedAlready { machine: self.machine(), kw })
    }

    fn cut_out(&self, at_c: Option<f64>) -> Option<Unlikely> {
        let at_c = at_c.filter(|at_c| *at_c < fahrenheit_to_celsius(COLDEST_CUT_OUT_F) - SLACK)?;
        Some(Unlikely::ColdCutOut { machine: self.machine(), at_c })
    }

    fn defrost(&self, pump: &HeatPumpSection) -> Option<Unlikely> {
        let (minutes, every) = defrost_minutes(pump);
        let long = minutes > LONGEST_DEFROST * every + SLACK;
        long.then(|| Unlikely::LongDefrost { machine: self.machine(), minutes, every })
    }
}

/// Zones whose furnace or boiler carries them, so that the heat pump behind it only adds what it lacks.
fn burner_first(design: &OptionDesign, parts: &Parts) -> Vec<Unlikely> {
    let zones = parts.zones.iter().zip(&design.zones);
    let found = zones.filter_map(|(zone, d)| {
        let mut heaters = d.heaters.iter().filter_map(|i| parts.machines.get(*i));
        let burns = |kind| matches!(kind, MachineKind::Furnace | MachineKind::Boiler);
        let burner = heaters.next().filter(|machine| burns(machine.kind))?;
        let pump = heaters.find(|machine| machine.kind == MachineKind::HeatPump)?;
        Some(Unlikely::BurnerFirst {
            option: design.name.clone(),
            zone: zone.name.clone(),
            burner: burner.name.clone(),
            pump: pump.name.clone(),
        })
    });
    found.collect()
}

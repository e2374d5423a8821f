//! A year's sums: energy by fuel, use and hour, and for each zone its heat, its machines and its
//! comfort.
//!
//! Start at [`YearSums`].

use super::comfort::Comfort;
use super::end_use::EndUse;
use super::energy::EnergyByHour;
use super::household::PlannedDraw;
use super::kernel::MOST_HEATERS;
use super::record::{Sink, ZoneRecord};
use crate::calendar::Calendar;
use crate::fuel::FuelId;

/// Sums over the hours handed in.
#[derive(Debug, Clone, PartialEq)]
pub struct YearSums {
    /// Energy drawn, by fuel, use and hour.
    pub energy: EnergyByHour,
    /// What each zone got.
    pub zones: Vec<ZoneSums>,
}

/// What one zone got.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ZoneSums {
    /// Was it warm?
    pub comfort: Comfort,
    /// Heat wanted in the room, kWh.
    pub need_kwh: f64,
    /// Heat that reached the room, kWh.
    pub heat_kwh: f64,
    /// Heat that reached the room from backup, kWh.
    pub backup_heat_kwh: f64,
    /// Hours in which backup gave heat.
    pub backup_hours: usize,
    /// Of the backup heat, what strips gave to temper the air while the first heater defrosted, kWh: not for
    /// want of heat.
    pub tempering_heat_kwh: f64,
    /// Of the backup hours, those with no other backup heat than that.
    pub tempering_hours: usize,
    /// Hours in which the first heater gave less than its least output, so that it cycled.
    pub first_cycling_hours: usize,
    /// Sensible cooling wanted, kWh.
    pub cooling_need_kwh: f64,
    /// Sensible cooling given, kWh.
    pub cooling_kwh: f64,
    /// Heat each heater gave (before ducts), kWh.
    pub heater_heat_kwh: [f64; MOST_HEATERS],
    /// Each heater's draw of its own fuel, kWh.
    pub heater_draw_kwh: [f64; MOST_HEATERS],
}

impl YearSums {
    /// Nothing yet, for a run on `calendar` with so many fuels and zones.
    pub fn new(calendar: &Calendar, fuels: usize, zones: usize) -> Self {
        let energy = EnergyByHour::new(fuels, calendar.stamps().len());
        Self { energy, zones: vec![ZoneSums::default(); zones] }
    }
}

impl YearSums {
    /// Moves what strips gave and drew while the first heater of a zone defrosted, kWh, from it to backup
    /// heat: in the room `in_room_kwh`, in an hour in which there was other backup heat or not.
    ///
    /// Takes values alone, so that an hour without it need not lie in memory for it.
    #[cold]
    fn part_defrosting(&mut self, kwh: f64, in_room_kwh: f64, other: bool, (zone, day): (usize, usize)) {
        self.energy.add(FuelId::ELECTRICITY, EndUse::SpaceHeating, day, -kwh);
        self.energy.add(FuelId::ELECTRICITY, EndUse::BackupHeat, day, kwh);
        let Some(zone) = self.zones.get_mut(zone) else { return };
        zone.heater_heat_kwh[0] -= kwh;
        zone.backup_heat_kwh += in_room_kwh;
        zone.backup_hours += usize::from(!other);
        zone.tempering_heat_kwh += in_room_kwh;
        zone.tempering_hours += usize::from(!other);
    }
}

impl Sink for YearSums {
    #[inline(always)]
    fn take(&mut self, record: &ZoneRecord<'_>) {
        let hour = record.hour;
        let outcome = record.outcome;
        for (heater, output) in record.plan.heaters.iter().zip(&outcome.heaters) {
            if output.heat > 0.0 {
                self.energy.add(heater.fuel, heater.end_use, hour, output.draw);
                self.energy.add(FuelId::ELECTRICITY, heater.end_use, hour, output.side);
            } else if output.draw > 0.0 {
                self.energy.add_waiting(heater.fuel, hour, output.draw);
            }
        }
        let electric = FuelId::ELECTRICITY;
        self.energy.add(electric, EndUse::Standby, hour, record.standby_kwh);
        self.energy.add(electric, EndUse::Cooling, hour, outcome.cooler.draw + outcome.cooler.side);
        if let Some(zone) = self.zones.get_mut(record.zone) {
            zone.take(record);
        }
        let kwh = record.defrost_kwh();
        if kwh > 0.0 {
            let mut heaters = record.plan.heaters.iter().zip(&outcome.heaters);
            let other = heaters.any(|(h, output)| h.end_use == EndUse::BackupHeat && output.heat > 0.0);
            let in_room = kwh * record.plan.heaters.first().map_or(1.0, |first| first.ducts);
            self.part_defrosting(kwh, in_room, other, (record.zone, hour));
        }
    }

    fn take_household(&mut self, hour: usize, draw: &PlannedDraw, kwh: f64) {
        self.energy.add(draw.fuel, draw.end_use, hour, kwh);
    }
}

impl ZoneSums {
    /// Heat that would have kept the zone at its set point, kWh: what it got, and what it lacked against
    /// a twin with ample heat. The sum of the hours' needs is more where a lack is wanted again an hour
    /// later.
    pub fn needed_kwh(&self) -> f64 {
        self.heat_kwh + self.comfort.heat_not_delivered_kwh
    }

    #[inline(always)]
    fn take(&mut self, record: &ZoneRecord<'_>) {
        let outcome = record.outcome;
        self.comfort.count(record);
        self.need_kwh += outcome.need;
        self.heat_kwh += outcome.heat;
        self.cooling_need_kwh += outcome.cooling_need;
        self.cooling_kwh += outcome.cooling;
        if let (Some(first), Some(output)) = (record.plan.heaters.first(), outcome.heaters.first()) {
            let cycles = output.heat > 0.0 && output.heat < first.hours.at(record.hour).least;
            self.first_cycling_hours += usize::from(cycles);
        }
        let mut backup = 0.0;
        let outputs = outcome.heaters.iter().zip(&outcome.in_room);
        for (i, (heater, (output, in_room))) in record.plan.heaters.iter().zip(outputs).enumerate() {
            if let (Some(heat), Some(draw)) =
                (self.heater_heat_kwh.get_mut(i), self.heater_draw_kwh.get_mut(i))
            {
                *heat += output.heat;
                *draw += output.draw;
            }
            if heater.end_use == EndUse::BackupHeat {
                backup += in_room;
            }
        }
        self.backup_heat_kwh += backup;
        self.backup_hours += usize::from(backup > 0.0);
    }
}

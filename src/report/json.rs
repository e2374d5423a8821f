//! The whole comparison as JSON, for other programs. Units are in the field names; within a
//! `schema_version` fields are only added.
//!
//! Start at [`text`].

use super::cold_night_json::{self, ColdNightDocument};
use super::figures::Measure;
use super::json_head;
use super::life_cycle_json::{self, LifeCyclesDocument, OptionLifeDocument};
pub use super::model::SCHEMA_VERSION;
use super::past_use::{self, PastUseDocument};
use super::ratings::{self, RatingsDocument};
use super::supply_json::{self, OrdinaryDocument, StoreDocument};
use super::tipping_json::{self, TippingDocument};
use super::wording;
use super::{bill_words, build};
use crate::coldnight::Carried;
use crate::comparison::{Comparison, Given, OptionAir, OptionResult, Warmth, ZoneResult};
use crate::ledger::{LineOfBill, Posting};
use crate::load::Zone;
use crate::problem::Problem;
use crate::sources::Assumption;
use crate::study::Tipping;
use crate::weather::extremes::{Extremes, NYearLow};
use schemars::JsonSchema;
use schemars::generate::SchemaSettings;
use serde::Serialize;

/// What `winterledger compare --json` prints; units stand in the names.
#[derive(Serialize, JsonSchema)]
#[schemars(title = "winterledger comparison")]
struct Document<'a> {
    schema_version: u32,
    program_version: &'static str,
    title: &'a str,
    site: &'a str,
    currency: &'a str,
    job_sha256: &'a str,
    weather: String,
    weather_sha256: &'a str,
    #[serde(rename = "extreme_low_degC")]
    extreme_low_c: Option<f64>,
    #[serde(rename = "elevation_m")]
    elevation_m: Option<f64>,
    n_year_lows: Option<LowsDocument>,
    verdict: Vec<String>,
    tipping_price: Option<TippingDocument<'a>>,
    options: Vec<OptionDocument<'a>>,
    life_cycle: Option<LifeCyclesDocument<'a>>,
    grid: GridDocument<'a>,
    past_use: Option<PastUseDocument<'a>>,
    ratings: Vec<RatingsDocument<'a>>,
    given: Vec<GivenDocument<'a>>,
    notes: Vec<String>,
    assumptions: &'a [Assumption],
    cautions: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
struct LowsDocument {
    winters: usize,
    seed: u64,
    lows: Vec<LowDocument>,
}

#[derive(Serialize, JsonSchema)]
struct LowDocument {
    years: u32,
    #[serde(rename = "low_degC")]
    low_c: f64,
    #[serde(rename = "interval_90_percent_degC")]
    interval_c: (f64, f64),
    #[serde(rename = "l_moments_degC")]
    l_moments_c: f64,
    #[serde(rename = "maximum_likelihood_degC")]
    maximum_likelihood_c: f64,
}

#[derive(Serialize, JsonSchema)]
struct OptionDocument<'a> {
    name: &'a str,
    keeps_warm: bool,
    is_only_slow_after_set_backs: bool,
    without_set_backs: Option<WithoutSetBacksDocument>,
    hours_not_kept_warm: usize,
    #[serde(rename = "lowest_room_degC")]
    lowest_room_c: Option<f64>,
    share_of_need_at_extreme_low: Option<f64>,
    yearly_cost: f64,
    yearly_cost_range: Option<(f64, f64)>,
    heating_adds: f64,
    #[serde(rename = "backup_heat_kWh")]
    backup_heat_kwh: f64,
    zones: Vec<ZoneDocument<'a>>,
    postings: Vec<PostingDocument<'a>>,
    bills: Vec<BillLineDocument<'a>>,
    stores: Vec<StoreDocument<'a>>,
    ordinary_terms: Option<OrdinaryDocument<'a>>,
    cold_night: ColdNightDocument<'a>,
    life_cycle: Option<OptionLifeDocument<'a>>,
    air: Option<AirDocument>,
}

/// The same year without set-backs, where with them some hour is too cold.
#[derive(Serialize, JsonSchema)]
struct WithoutSetBacksDocument {
    hours_not_kept_warm: usize,
    yearly_cost: f64,
}

/// What a year sends into the air; costs of a tonne are set against the base.
#[derive(Serialize, JsonSchema)]
struct AirDocument {
    co2_kg: Option<f64>,
    co2e_kg: f64,
    electricity_co2e_kg: f64,
    biogenic_co2_kg: f64,
    avoided_co2e_t: Option<f64>,
    bills_per_t: Option<f64>,
    whole_cost_per_t: Option<f64>,
}

/// The average of a region for each kWh that plants give; not the marginal rate.
#[derive(Serialize, JsonSchema)]
struct GridDocument<'a> {
    region: Option<&'a str>,
    #[serde(rename = "co2_kg_per_kWh")]
    co2_kg: Option<f64>,
    #[serde(rename = "co2e_kg_per_kWh")]
    co2e_kg: f64,
    loss: f64,
    base: &'a str,
}

/// A price or cost that the job gives: what, how it is known, in the job's words.
#[derive(Serialize, JsonSchema)]
struct GivenDocument<'a> {
    what: String,
    basis: &'static str,
    source: Option<&'a str>,
}

#[derive(Serialize, JsonSchema)]
struct ZoneDocument<'a> {
    name: &'a str,
    hours_not_kept_warm: usize,
    recovery_hours: usize,
    #[serde(rename = "lowest_room_degC")]
    lowest_room_c: Option<f64>,
    #[serde(rename = "hours_below_60degF")]
    hours_below_60f: Option<usize>,
    #[serde(rename = "hours_below_45degF")]
    hours_below_45f: Option<usize>,
    #[serde(rename = "degree_hours_short_K_h")]
    degree_hours_short: Option<f64>,
    #[serde(rename = "heat_not_delivered_kWh")]
    heat_not_delivered_kwh: f64,
    /// Heat that would have kept the zone at its set point all year: what it got and what it lacked.
    #[serde(rename = "heat_need_kWh")]
    need_kwh: f64,
    #[serde(rename = "heat_kWh")]
    heat_kwh: f64,
    #[serde(rename = "backup_heat_kWh")]
    backup_heat_kwh: f64,
    backup_hours: usize,
    /// Of the backup heat, what strips gave to temper the air while a heat pump defrosted.
    #[serde(rename = "tempering_heat_kWh")]
    tempering_heat_kwh: f64,
    /// Of the backup hours, those with no other backup heat than that.
    tempering_hours: usize,
    /// Cooling that would have ended each hour at the cooling set point, from where the room stood. A
    /// room that is not cooled enough asks for the same again in the next hour, so this can be far more
    /// than a large enough cooler would give.
    #[serde(rename = "sensible_cooling_need_kWh")]
    cooling_need_kwh: f64,
    #[serde(rename = "sensible_cooling_kWh")]
    cooling_kwh: f64,
    #[serde(rename = "first_machine_alone_down_to_degC")]
    first_heater_balance_c: Option<f64>,
    at_design: CarriedDocument,
    at_extreme_low: Option<CarriedDocument>,
}

#[derive(Serialize, JsonSchema)]
struct CarriedDocument {
    #[serde(rename = "outdoor_degC")]
    outdoor_c: f64,
    #[serde(rename = "need_kW")]
    need_kw: f64,
    #[serde(rename = "heat_kW")]
    heat_kw: f64,
    #[serde(rename = "first_machine_greatest_kW")]
    first_capacity_kw: f64,
}

#[derive(Serialize, JsonSchema)]
struct PostingDocument<'a> {
    month: Option<u8>,
    end_use: &'static str,
    fuel: &'a str,
    heating_meter: bool,
    quantity: f64,
    unit: String,
    price: f64,
    amount: f64,
    reason: String,
}

/// One line of a month's bill: the postings that share month, fuel, meter and reason.
#[derive(Serialize, JsonSchema)]
struct BillLineDocument<'a> {
    month: Option<u8>,
    fuel: &'a str,
    heating_meter: bool,
    line: String,
    quantity: f64,
    unit: String,
    price: f64,
    amount: f64,
    amount_for_heating: f64,
}

/// The comparison as indented JSON with a line end; `tipping` is its own, where it was looked for.
///
/// # Errors
/// A value that JSON cannot hold; that would be a defect.
pub fn text(c: &Comparison, tipping: Option<&Tipping>) -> Result<String, Problem> {
    let report = build::report(c);
    let document = Document {
        schema_version: SCHEMA_VERSION,
        program_version: env!("CARGO_PKG_VERSION"),
        title: &c.title,
        site: &c.site.name,
        currency: &c.currency,
        job_sha256: &c.job_sha256,
        weather: build::weather_words(c, Measure(c.units)),
        weather_sha256: c.weather.sha256(),
        extreme_low_c: c.site.extreme_low_c,
        elevation_m: c.site.elevation_m,
        n_year_lows: c.winters.as_ref().and_then(|winters| winters.extremes.as_ref()).map(lows),
        options: c.options.iter().enumerate().map(|(i, o)| option(c, i, o)).collect(),
        life_cycle: life_cycle_json::document(c),
        grid: grid(c),
        past_use: past_use::document(c),
        ratings: ratings::documents(c),
        given: c.given.iter().map(|given| given_document(c, given)).collect(),
        tipping_price: tipping.map(|tipping| tipping_json::document(c, tipping)),
        assumptions: &c.assumptions.0,
        verdict: report.verdict,
        notes: report.notes,
        cautions: report.cautions,
    };
    json_head::written(&document)
}

/// The JSON Schema of [`text`]'s document, as indented JSON with a line end.
///
/// # Errors
/// A value that JSON cannot hold; that would be a defect.
pub fn schema() -> Result<String, serde_json::Error> {
    let settings = SchemaSettings::draft2020_12().for_serialize();
    let schema = settings.into_generator().into_root_schema_for::<Document<'static>>();
    serde_json::to_string_pretty(&schema).map(|text| text + "\n")
}

fn lows(extremes: &Extremes) -> LowsDocument {
    let low = |low: &NYearLow| LowDocument {
        years: low.years,
        low_c: low.low_c,
        interval_c: low.interval_c,
        l_moments_c: low.l_moments_c,
        maximum_likelihood_c: low.maximum_likelihood_c,
    };
    LowsDocument {
        winters: extremes.winters,
        seed: extremes.seed,
        lows: extremes.lows.iter().map(low).collect(),
    }
}

fn option<'a>(c: &'a Comparison, place: usize, o: &'a OptionResult) -> OptionDocument<'a> {
    OptionDocument {
        name: &o.design.name,
        keeps_warm: o.hours_not_kept_warm() == 0,
        is_only_slow_after_set_backs: o.warmth() == Warmth::SlowToRecover,
        without_set_backs: o.without_set_backs.as_ref().map(|without| WithoutSetBacksDocument {
            hours_not_kept_warm: without.hours_not_kept_warm,
            yearly_cost: without.yearly_cost,
        }),
        hours_not_kept_warm: o.hours_not_kept_warm(),
        lowest_room_c: o.lowest_room_c(),
        share_of_need_at_extreme_low: o.share_at_extreme_low(),
        yearly_cost: o.yearly_cost(),
        yearly_cost_range: o.yearly_cost_range(),
        heating_adds: o.heating_adds,
        backup_heat_kwh: o.backup_heat_kwh(),
        zones: c.zones.iter().zip(&o.zones).map(|(zone, result)| zone_document(zone, result)).collect(),
        postings: o.ledger.postings.iter().map(|p| posting(c, p)).collect(),
        bills: o.ledger.bills().iter().map(|line| bill_line(c, line)).collect(),
        stores: o.stores.iter().map(|store| supply_json::document(c, store)).collect(),
        ordinary_terms: o.ordinary.as_ref().map(supply_json::ordinary),
        cold_night: cold_night_json::document(c, o),
        life_cycle: life_cycle_json::option(c, place),
        air: c.air.options.get(place).map(air),
    }
}

fn air(air: &OptionAir) -> AirDocument {
    AirDocument {
        co2_kg: air.emissions.co2_kg,
        co2e_kg: air.emissions.co2e_kg,
        electricity_co2e_kg: air.emissions.electricity_co2e_kg,
        biogenic_co2_kg: air.emissions.biogenic_co2_kg,
        avoided_co2e_t: air.avoided_t,
        bills_per_t: air.bills_per_t,
        whole_cost_per_t: air.whole_per_t,
    }
}

fn grid(c: &Comparison) -> GridDocument<'_> {
    let grid = &c.air.grid;
    GridDocument {
        region: grid.region.as_ref().map(|(id, _)| id.as_str()),
        co2_kg: grid.rate.co2_kg,
        co2e_kg: grid.rate.co2e_kg,
        loss: grid.loss,
        base: c.options.get(c.air.base).map_or("", |option| &option.design.name),
    }
}

fn given_document<'a>(c: &Comparison, given: &'a Given) -> GivenDocument<'a> {
    GivenDocument {
        what: super::given::what(c, given.what),
        basis: super::given::how(given.how),
        source: given.source.as_deref(),
    }
}

fn zone_document<'a>(zone: &'a Zone, result: &ZoneResult) -> ZoneDocument<'a> {
    let comfort = &result.sums.comfort;
    let room = comfort.room.as_ref();
    ZoneDocument {
        name: &zone.name,
        hours_not_kept_warm: comfort.hours_not_kept_warm,
        recovery_hours: comfort.recovery_hours,
        lowest_room_c: room.map(|r| r.lowest_c),
        hours_below_60f: room.map(|r| r.hours_below_60f),
        hours_below_45f: room.map(|r| r.hours_below_45f),
        degree_hours_short: room.map(|r| r.degree_hours_short),
        heat_not_delivered_kwh: comfort.heat_not_delivered_kwh,
        need_kwh: result.sums.needed_kwh(),
        heat_kwh: result.sums.heat_kwh,
        backup_heat_kwh: result.sums.backup_heat_kwh,
        backup_hours: result.sums.backup_hours,
        tempering_heat_kwh: result.sums.tempering_heat_kwh,
        tempering_hours: result.sums.tempering_hours,
        cooling_need_kwh: result.sums.cooling_need_kwh,
        cooling_kwh: result.sums.cooling_kwh,
        first_heater_balance_c: result.first_heater_balance_c,
        at_design: carried(&result.at_design),
        at_extreme_low: result.at_extreme_low.as_ref().map(carried),
    }
}

fn carried(at: &Carried) -> CarriedDocument {
    CarriedDocument {
        outdoor_c: at.outdoor_c,
        need_kw: at.need_kw,
        heat_kw: at.heat_kw,
        first_capacity_kw: at.first_capacity_kw,
    }
}

fn posting<'a>(c: &'a Comparison, p: &Posting) -> PostingDocument<'a> {
    PostingDocument {
        month: p.month,
        end_use: wording::end_use(p.end_use),
        fuel: c.fuels.get(p.fuel).map_or("", |f| &f.id),
        heating_meter: p.heating_meter,
        quantity: p.quantity,
        unit: bill_words::unit(c, p),
        price: p.price,
        amount: p.amount,
        reason: bill_words::line(c, p),
    }
}

fn bill_line<'a>(c: &'a Comparison, line: &LineOfBill) -> BillLineDocument<'a> {
    let p = &line.whole;
    BillLineDocument {
        month: p.month,
        fuel: c.fuels.get(p.fuel).map_or("", |f| &f.id),
        heating_meter: p.heating_meter,
        line: bill_words::line(c, p),
        quantity: p.quantity,
        unit: bill_words::unit(c, p),
        price: p.price,
        amount: p.amount,
        amount_for_heating: line.heating(),
    }
}

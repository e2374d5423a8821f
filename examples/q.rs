use winterledger::*;
fn main(){
 let t=include_str!("../data/demo.toml").to_string();
 let t = if std::env::args().count()>1 { t.replace("balance_temperature = \"62 degF\"","balance_temperature = \"62 degF\"\nheat_capacity=\"0 kWh/K\"") } else {t};
 let job=job::reader::read("demo",t).unwrap();
 let w=weather::Weather::Year(Box::new(weather::places::open("il-chicago").unwrap()));
 let c=comparison::compare(&job,&w).unwrap();
 for o in &c.options { println!("{} {:.2} cold {} low {:?} ext {:?}",o.design.name,o.yearly_cost(),o.hours_not_kept_warm(),o.lowest_room_c().map(units::celsius_to_fahrenheit),o.share_at_extreme_low());
  for (id,f) in c.fuels.iter() { for u in simulation::EndUse::DRAWING { let k=comparison::option::used_kwh(o,&c.fuels,id,u); if k!=0.0 {println!("   {} {:?} {:.1} kWh {:.1} {}",f.id,u,k,k/f.kwh_per_unit,f.selling_unit);} } }
  for z in &o.zones { println!("   need {:.0} heat {:.0} backup {:.0} {:?} bal {:?} {:?}",z.sums.need_kwh,z.sums.heat_kwh,z.sums.backup_heat_kwh,z.sums.comfort,z.first_heater_balance_c.map(units::celsius_to_fahrenheit), z.at_extreme_low);}
 }
 println!("{:?} {:?}",c.notes,c.assumptions);
}

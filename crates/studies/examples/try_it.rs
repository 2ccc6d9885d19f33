fn main() {
    let path = std::env::args().nth(1).unwrap();
    let builds: usize = std::env::args().nth(2).map_or(200, |n| n.parse().unwrap());
    let text = std::fs::read_to_string(&path).unwrap();
    let shelf =
        std::fs::read_to_string(std::path::Path::new(&path).with_file_name("shelf.toml")).ok();
    let t = std::time::Instant::now();
    let r = boxwright_studies::run(
        boxwright_studies::Texts {
            design: &text,
            shelf: shelf.as_deref(),
        },
        boxwright_studies::Options {
            builds,
            spread: 1.0,
            progress: &|_| {},
        },
    );
    let t = t.elapsed();
    match r {
        Err(e) => {
            for d in e {
                println!("{}: {} / {} / {}", d.code, d.message, d.label, d.mend);
            }
        }
        Ok(r) => {
            for p in &r.promises {
                println!(
                    "{:6} {:10.3} {} [{:?} {:?}] target {:?} odds {:?} | {} {:?}",
                    p.id,
                    p.value,
                    p.unit,
                    p.p10,
                    p.p90,
                    p.target,
                    p.odds,
                    p.about,
                    p.odds_sentence()
                );
            }
            for f in &r.figures {
                println!(
                    "   {:60} {:10.4} {:5} [{:.4?} {:.4?}]",
                    f.title,
                    f.value,
                    f.unit,
                    f.p10.unwrap_or(0.),
                    f.p90.unwrap_or(0.)
                );
            }
            for m in &r.movers {
                println!("   {:6} {:.2} {}", m.promise, m.share, m.cause);
            }
            println!("{:?}", r.versus.map(|v| v.sentence));
            println!("{:?}", r.measurement);
            for f in &r.findings {
                println!("{:?} {} {} {:?}", f.severity, f.title, f.cause, f.mend);
            }
            for c in &r.curves {
                let k: Vec<String> = (0..400)
                    .step_by(25)
                    .map(|i| format!("{:.0}:{:.1}", c.x[i], c.y[i]))
                    .collect();
                println!("{} {}", c.id, k.join(" "));
            }
            if let Some(l) = &r.curves[1].limits {
                let k: Vec<String> = (0..400)
                    .step_by(25)
                    .map(|i| format!("{:?}", l[i]))
                    .collect();
                println!("{}", k.join(" "));
            }
        }
    }
    println!("{t:?}");
}

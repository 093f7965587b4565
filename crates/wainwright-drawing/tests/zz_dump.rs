mod common;
use wainwright_drawing::*;
#[test]
fn dump() {
    let d = std::path::Path::new("/tmp/ww/draw");
    for (n, dia) in [
        ("r40", common::radial(3, 40)),
        ("r12", common::radial(14, 12)),
        ("r9", common::radial(22, 9)),
        ("s", common::senseless(5, 14, 22)),
        ("empty", Diagram::default()),
        ("shelf", common::senseless(9, 18, 4)),
    ] {
        let t = std::time::Instant::now();
        let l = layout(&dia);
        eprintln!(
            "{n} {}x{} crossings {} {:?}",
            l.width,
            l.height,
            l.crossings,
            t.elapsed()
        );
        std::fs::write(d.join(format!("{n}.svg")), svg(&l, &Style::default())).unwrap();
    }
    for seed in 0..4 {
        let dia = common::radial(seed, 1000);
        let t = std::time::Instant::now();
        let l = layout(&dia);
        let a = t.elapsed();
        svg(&l, &Style::default());
        eprintln!("1000: {:?} {:?} {}", a, t.elapsed(), l.crossings);
        let dia = common::senseless(seed, 1000, 1500);
        let t = std::time::Instant::now();
        let l = layout(&dia);
        let a = t.elapsed();
        svg(&l, &Style::default());
        eprintln!("senseless 1000: {:?} {:?} {}", a, t.elapsed(), l.crossings);
    }
    use chart::*;
    let b = bar(
        &Bar {
            label: "Wire current".into(),
            value: 8.3,
            limit: 20.0,
            value_text: "8.3 A".into(),
            limit_text: "of 20 A".into(),
            tone: Tone::Calm,
        },
        Css::Inside,
    );
    let b2 = bar(
        &Bar {
            label: "Voltage drop".into(),
            value: 4.2,
            limit: 3.0,
            value_text: "4.2 %".into(),
            limit_text: "of 3 %".into(),
            tone: Tone::Bad,
        },
        Css::Inside,
    );
    let b3 = bar(
        &Bar {
            label: "Wire temperature".into(),
            value: 98.0,
            limit: 105.0,
            value_text: "98 °C".into(),
            limit_text: "of 105 °C".into(),
            tone: Tone::Watch,
        },
        Css::Inside,
    );
    let t1 = time_band(
        &TimeBand {
            device: "Fuse 15 A at 240 A".into(),
            earliest_seconds: Some(0.004),
            latest_seconds: Some(0.05),
            conductor: "14 AWG to 160 °C".into(),
            withstand_seconds: Some(1.7),
            tone: Tone::Calm,
        },
        Css::Inside,
    );
    let t2 = time_band(
        &TimeBand {
            device: "Fuse 80 A at 120 A".into(),
            earliest_seconds: Some(20.0),
            latest_seconds: None,
            conductor: "14 AWG to 160 °C".into(),
            withstand_seconds: Some(9.0),
            tone: Tone::Bad,
        },
        Css::Inside,
    );
    let st = |l: &str, v: f64, t| Step {
        label: l.into(),
        volts: v,
        tone: t,
    };
    let p = profile(
        &Profile {
            title: "Voltage from battery to fridge".into(),
            start_volts: 13.1,
            steps: vec![
                st("Main fuse", 13.095, Tone::Calm),
                st("2/0 AWG · 3 ft", 13.08, Tone::Calm),
                st("Positive bus", 13.079, Tone::Calm),
                st("6 AWG · 3 ft", 13.05, Tone::Calm),
                st("Fuse 10 A", 12.98, Tone::Watch),
                st("14 AWG · 12 ft", 12.71, Tone::Bad),
                st("Return 14 AWG · 12 ft", 12.44, Tone::Bad),
            ],
            limit_volts: Some(12.6),
        },
        Css::Inside,
    );
    std::fs::write(
        d.join("charts.svg"),
        format!("<!-- viewBox=\"0 0 700 620\" -->{b}<br>{b2}<br>{b3}<br>{t1}<br>{t2}<br>{p}"),
    )
    .unwrap();
}

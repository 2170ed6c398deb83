//! All parts with made-up figures, to be looked at while working on their looks.
//!
//! Only in builds for development: the address ends in `?gallery=3`, and `&theme=dark` picks a
//! theme.

#[allow(clippy::wildcard_imports)] // It shows all there is.
use super::*;
use crate::measure::{Span, Volume};
use leptos::prelude::*;

mod faces;
mod inputs;
mod looks;

/// The gallery's page that the address asks for, if it asks for one.
pub fn asked() -> Option<AnyView> {
    let query = window().location().search().unwrap_or_default();
    let asked = |name: &str| {
        let mut pairs = query.trim_start_matches('?').split('&');
        pairs.find_map(|pair| pair.strip_prefix(name)?.strip_prefix('=')).map(str::to_owned)
    };
    let page: usize = asked("gallery")?.parse().ok()?;
    if let (Some(theme), Some(root)) = (asked("theme"), document().document_element()) {
        // Without it the gallery is shown in the system's theme.
        let _ = root.set_attribute("data-theme", &theme);
    }
    PAGES.get(page).map(|page| page())
}

const PAGES: [fn() -> AnyView; 12] = [
    draw,
    points,
    hour,
    decide,
    late,
    inputs::choosing,
    inputs::typing,
    drawings,
    places,
    sheet,
    faces::faces,
    looks::looks,
];

const NAMES: [&str; 5] = ["Situation", "Allergy", "Strength", "Syringe", "Rounds"];

fn step(at: usize, fraction: f64) -> StepMark {
    StepMark {
        names: NAMES.map(str::to_owned).to_vec(),
        at,
        fraction,
        label: format!("Step {} of 5, {}", at + 1, NAMES[at]),
    }
}

fn frame(at: usize, fraction: f64, content: AnyView, foot: AnyView) -> AnyView {
    view! {
        <Screen
            reference="Case R-0417"
            step=Some(step(at, fraction))
            back=|()| ()
            back_label="Back"
            on_anaphylaxis=|()| ()
            anaphylaxis_label="Anaphylaxis"
        >
            <Foot slot>{foot}</Foot>
            {content}
        </Screen>
    }
    .into_any()
}

fn nothing() -> Callback<()> {
    Callback::new(|()| ())
}

fn draw() -> AnyView {
    let content = view! {
        <Title eyebrow="Movement 1 of 2 · syringe 1 of 3">"Draw stock to " <em>"0.40 mL"</em></Title>
        <SyringeDrawing
            capacity=Volume::ml(1)
            interval=Volume::ul(10)
            layers=vec![Layer::new(Fluid::Stock, Volume::ul(400)).named("Stock")]
            aim=Some(Volume::ul(400))
            unit="mL"
            label="1 mL syringe, plunger at 0.40 mL"
        />
        <Figures>
            <Figure label="In the syringe" number="600" unit="units" />
            <Figure label="After saline to 1.00 mL" number="600" unit="units/mL" />
        </Figures>
        <Why
            summary="Why 600 units per mL"
            findings=vec![Finding {
                figure: "500 to 600 units/mL".into(),
                setting: "Occlusion of a skin artery".into(),
                citation: "Common practice".into(),
                status: "no source".into(),
            }]
        />
    };
    let foot = view! {
        <GoButton on_press=nothing()>"Drawn, 0.40 mL"</GoButton>
        <QuietButton on_press=nothing()>"Not what I have"</QuietButton>
    };
    frame(3, 0.5, content.into_any(), foot.into_any())
}

fn points() -> AnyView {
    let marks = |n: usize, done: usize| {
        (0..n)
            .map(|at| match at {
                3 if done > 3 => PointMark::Skipped,
                _ if at < done => PointMark::Done,
                _ if at == done => PointMark::Next,
                _ => PointMark::Todo,
            })
            .collect::<Vec<_>>()
    };
    let content = view! {
        <Title eyebrow="Territory 12.4 cm² · 14 points · 1.0 cm apart">"Point 7 " <em>"0.10 mL"</em></Title>
        <GridDrawing points=marks(14, 6) label="14 points, 6 done" />
        <Figures>
            <Figure label="Given this round" number="360" unit="units" />
            <Figure label="Still to give" number="480" unit="of 840" />
        </Figures>
        <GridDrawing points=marks(40, 17) label="40 points, 17 done" />
        <GridDrawing points=marks(120, 107) label="120 points, 107 done" />
        <GridDrawing points=marks(3, 0) label="3 points" />
    };
    let foot = view! {
        <GoButton on_press=nothing()>"Injected, 0.10 mL"</GoButton>
        <Pair>
            <QuietButton on_press=nothing()>"Skip, why"</QuietButton>
            <QuietButton on_press=nothing()>"Undo 6"</QuietButton>
        </Pair>
    };
    frame(4, 0.4, content.into_any(), foot.into_any())
}

fn looks() -> Vec<Reading> {
    [(0, Some(6.2)), (22, Some(5.8)), (64, None), (85, Some(3.9)), (124, Some(3.1))]
        .map(|(minutes, value)| Reading { at: Span::minutes(minutes), value })
        .to_vec()
}

fn trend(readings: &[Reading]) -> AnyView {
    let pain = |reading: &Reading| Reading { value: Some(5.0), ..*reading };
    let courses = vec![
        Course {
            name: "Refill, affected side".into(),
            last: "3.1 s".into(),
            label: "Refill from 6.2 to 3.1 seconds over two rounds".into(),
            readings: readings.to_vec(),
            other: vec![Reading { at: Span::minutes(22), value: Some(1.6) }],
            limit: Some(3.0),
            ..Course::default()
        },
        Course {
            name: "Pain".into(),
            last: "5".into(),
            label: "Pain stays at 5".into(),
            readings: readings.iter().map(pain).collect(),
            top: Some(10),
            ..Course::default()
        },
        Course {
            name: "Units".into(),
            last: "1 380 units".into(),
            label: "1380 units in two rounds".into(),
            readings: [(8, 600.0), (70, 1380.0)]
                .map(|(minutes, units)| Reading { at: Span::minutes(minutes), value: Some(units) })
                .to_vec(),
            shape: Shape::Steps,
            ..Course::default()
        },
    ];
    let axis = Axis::over(readings.iter().map(|reading| reading.at));
    let rounds = vec![Span::minutes(8), Span::minutes(70)];
    view! { <Trend courses rounds axis from="13:05" to="15:09" key="Numbered lines: the rounds" /> }
        .into_any()
}

fn hour() -> AnyView {
    let content = view! {
        <Title eyebrow="Round 2 done">"Look again in"</Title>
        <Clock span=Span::seconds(2_530) label="Time to the next look" />
        <Bar fraction=0.3 label="Of the hour" />
        <Figures>
            <Figure label="Since onset" number="1 h 18" />
            <Figure label="Units so far" number="1 380" />
            <Figure label="Vials left" number="3" />
            <Figure label="Serves" number="2" unit="rounds" />
        </Figures>
        {trend(&looks())}
    };
    let foot = view! {
        <GoButton on_press=nothing()>"Look now"</GoButton>
        <Pair>
            <QuietButton on_press=nothing()>"Hand over"</QuietButton>
            <QuietButton on_press=nothing()>"Calendar alarm"</QuietButton>
        </Pair>
    };
    frame(4, 0.7, content.into_any(), foot.into_any())
}

fn late() -> AnyView {
    let content = view! {
        <Banner
            text="A new version is ready."
            action="Use it now"
            on_action=nothing()
        />
        <Title eyebrow="Round 2">"The look is due"</Title>
        <Clock span=Span::seconds(191) label="Overdue" overdue=true overdue_word="Overdue" />
        <Bar fraction=1.0 label="Of the hour" />
        <Clock span=Span::seconds(5_025) label="Time" />
        <Clock span=Span::seconds(185) label="Time" small=true />
        <Note tone=Tone::Danger heading="Vial out of date" >"Lot 4K12 expired on 31 August 2026. Take another."</Note>
        <Note tone=Tone::Caution heading="Sources disagree">"By area this takes 12 points, by named areas 18."</Note>
        <Note>"Follow the product's label and the local protocol."</Note>
        <DangerButton on_press=nothing()>"Use it all the same"</DangerButton>
        <Banner text="Storage is full. Take the record as a file." tone=Tone::Danger action="Save file" on_action=nothing() />
    };
    let foot = view! {
        <Toast text="Recorded 14:32" />
        <GoButton
            on_press=nothing()
            why_not="Refill on both sides is still missing."
        >
            "Next round"
        </GoButton>
    };
    frame(4, 0.9, content.into_any(), foot.into_any())
}

fn decide() -> AnyView {
    let content = view! {
        <Title eyebrow="From what was found">"Outcome"</Title>
        <Verdict
            outcome=Outcome::Urgent
            word="Urgent"
            heading="Blocked skin artery, act now"
        >
            <p>"Refill 6.2 s on the affected side, 1.6 s on the other."</p>
        </Verdict>
        <Verdict
            outcome=Outcome::HandOver
            word="Hand over at once"
            heading="Sight is affected"
        >
            <p>"Call the emergency number. Go on only if nobody else can."</p>
        </Verdict>
        <Verdict outcome=Outcome::Planned word="Can be planned" heading="Take part of it away" />
        <Verdict outcome=Outcome::NotForIt word="Not for it" heading="The filler is not hyaluronic acid" />
    };
    let foot = view! {
        <GoButton on_press=nothing()>"Start, urgent"</GoButton>
        <QuietButton on_press=nothing()>"Change an answer"</QuietButton>
    };
    frame(0, 1.0, content.into_any(), foot.into_any())
}

fn syringe(capacity: u64, interval: u64, layers: Vec<Layer>, aim: u64) -> AnyView {
    view! {
        <SyringeDrawing
            capacity=Volume::ul(capacity)
            interval=Volume::ul(interval)
            layers=layers
            aim=Some(Volume::ul(aim))
            unit="mL"
            label="A syringe"
        />
    }
    .into_any()
}

fn drawings() -> AnyView {
    let two = || {
        vec![
            Layer::new(Fluid::Stock, Volume::ul(400)).named("Stock 0.40 mL"),
            Layer::new(Fluid::Diluent, Volume::ul(600)).named("Saline 0.60 mL"),
        ]
    };
    let stock = |ul| vec![Layer::new(Fluid::Stock, Volume::ul(ul))];
    let content = view! {
        <Title>"Drawings"</Title>
        {syringe(1_000, 10, two(), 1_000)}
        {syringe(1_000, 10, vec![Layer::new(Fluid::Mixed, Volume::ml(1)).named("Mixed 1.00 mL")], 1_000)}
        {syringe(300, 10, stock(30), 30)}
        {syringe(500, 10, stock(170), 170)}
        {syringe(1_000, 50, stock(350), 350)}
        {syringe(2_000, 100, stock(700), 700)}
        {syringe(3_000, 100, vec![Layer::new(Fluid::Diluent, Volume::ml(3))], 3_000)}
        {syringe(5_000, 200, vec![Layer::new(Fluid::Other, Volume::ul(1_400))], 1_400)}
        {syringe(10_000, 500, Vec::new(), 0)}
        <Pair>
            <VialDrawing capacity=Volume::ml(2) powder=true label="A dry vial" />
            <VialDrawing
                capacity=Volume::ml(2)
                liquid=Volume::ml(1)
                level_words="1.00 mL"
                rest=Some(Volume::ul(600))
                rest_words="0.60 mL"
                label="A vial, half full"
            />
        </Pair>
        {trend(&looks())}
        {trend(&looks()[..1])}
    };
    frame(3, 0.0, content.into_any(), ().into_any())
}

fn places() -> AnyView {
    let entry = |key: &str, time: &str, text: &str| Entry {
        key: key.into(),
        time: time.into(),
        text: text.into(),
        ..Entry::default()
    };
    let entries = vec![
        entry("1", "14:02", "Urgent occlusion"),
        Entry {
            detail: Some("Lot 4K12, expires March 2027".into()),
            ..entry("2", "14:05", "Vial of 1500 units dissolved in 1.00 mL")
        },
        Entry {
            struck: Some("Struck out 14:09: wrong syringe".into()),
            ..entry("3", "14:07", "Drawn 0.04 mL")
        },
        entry("4", "14:09", "Drawn 0.40 mL"),
    ];
    view! {
        <Screen on_anaphylaxis=|()| () anaphylaxis_label="Anaphylaxis">
            <Foot slot>
                <GoButton on_press=nothing()>"New case"</GoButton>
            </Foot>
            <Title>"Cases"</Title>
            <Rows>
                <Row label="R-0417" detail="Round 2, upper lip" trailing="42:10" on_press=nothing() />
                <Row label="R-0416" detail="Skin test read in" trailing="8:00" on_press=nothing() />
            </Rows>
            <Rows>
                <Row label="Quick sums" detail="Strength and dose without a case" on_press=nothing() />
                <Row label="Kit" trailing="5 vials" on_press=nothing() />
                <Row label="Clinic values" on_press=nothing() />
            </Rows>
            <h2>"Record"</h2>
            <Timeline entries=entries.clone() on_press=|_| () />
            <Figures>
                <Figure label="Total" number="1 380" unit="units" note="of which 60 lost" wide=true />
                <Figure label="Rounds" number="2" />
                <Figure label="Points" number="28" />
                <Figure label="Strength" number="600" unit="units/mL" note="460 to 810 at worst" />
            </Figures>
        </Screen>
    }
    .into_any()
}

fn sheet() -> AnyView {
    let open = RwSignal::new(true);
    let content = view! {
        <Title eyebrow="Allergy">"Before the first dose"</Title>
        <QuietButton on_press=move |()| open.set(true)>"Open"</QuietButton>
        <Sheet
            open=open
            on_close=move |()| open.set(false)
            heading="Anaphylaxis"
            close_label="Close"
            danger=true
        >
            <Figures>
                <Figure label="Adrenaline 1 mg/mL, into the thigh" number="0.50" unit="mL" wide=true />
            </Figures>
            <Clock span=Span::seconds(263) label="Again in" />
            <GoButton on_press=nothing()>"Given now"</GoButton>
        </Sheet>
    };
    frame(1, 0.5, content.into_any(), ().into_any())
}

//! The SVG and the PDF of a page show the same: as many lines in the same places, the same words as long as each other.

use mastwright_engine::drawing::sheet::Wanted;
use mastwright_engine::drawing::{Paper, sheets};
use mastwright_engine::quantity::UnitSystem;
use mastwright_paper::pdf;

use crate::pdf::job;
use crate::pdf_reader::{self, PageShown};

fn attribute<'a>(tag: &'a str, name: &str) -> Option<&'a str> {
    tag.split(&format!(" {name}=\"")).nth(1)?.split('"').next()
}

fn numbers(text: &str) -> Vec<f64> {
    let parts = text.split(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'));
    parts.filter_map(|part| part.parse().ok()).collect()
}

/// Left, top, right, bottom of points.
fn extent(points: &[[f64; 2]]) -> [f64; 4] {
    let fold = |axis: usize, start: f64, pick: fn(f64, f64) -> f64| {
        points.iter().map(|at| at[axis]).fold(start, pick)
    };
    [
        fold(0, f64::INFINITY, f64::min),
        fold(1, f64::INFINITY, f64::min),
        fold(0, f64::NEG_INFINITY, f64::max),
        fold(1, f64::NEG_INFINITY, f64::max),
    ]
}

/// A line from a point to itself shows nothing; the PDF leaves it out.
fn shows(extent: &[f64; 4]) -> bool {
    extent[2] - extent[0] > 0.001 || extent[3] - extent[1] > 0.001
}

/// Extents of the stroked lines that are not white, in order.
fn lines_of_svg(svg: &str) -> Vec<[f64; 4]> {
    let tags = svg.split("<path").skip(1).map(|tag| tag.split('>').next().unwrap());
    tags.filter(|tag| attribute(tag, "stroke").is_some_and(|colour| colour != "#ffffff"))
        .map(|tag| {
            let data = numbers(attribute(tag, "d").unwrap());
            extent(&data.chunks(2).map(|pair| [pair[0], pair[1]]).collect::<Vec<_>>())
        })
        .filter(shows)
        .collect()
}

fn lines_of_pdf(page: &PageShown) -> Vec<[f64; 4]> {
    page.strokes.iter().filter(|line| !line.white).map(|line| extent(&line.points)).filter(shows).collect()
}

/// Words with their length, in order.
fn words_of_svg(svg: &str) -> Vec<(String, f64)> {
    let texts = svg.split("<text").skip(1).map(|rest| rest.split("</text>").next().unwrap());
    texts
        .map(|text| {
            let (tag, words) = text.split_once('>').unwrap();
            let words = words.replace("&quot;", "\"").replace("&#39;", "'").replace("&amp;", "&");
            (words, attribute(tag, "textLength").unwrap().parse().unwrap())
        })
        .collect()
}

#[test]
fn both_show_the_same_lines_and_words() {
    for (system, paper) in [(UnitSystem::Metric, Paper::A4), (UnitSystem::Imperial, Paper::Tabloid)] {
        let (job, computed) = job(system);
        let document = sheets(&job, &computed, &Wanted::on(paper));
        let bytes = pdf(&document).unwrap();
        let shown = pdf_reader::pages(&pdf_reader::read(&bytes));
        let svgs = document.svg();
        assert_eq!(shown.len(), svgs.len());
        for (page, svg) in shown.iter().zip(&svgs) {
            let (of_svg, of_pdf) = (lines_of_svg(svg), lines_of_pdf(page));
            assert_eq!(of_svg.len(), of_pdf.len(), "lines");
            assert!(of_svg.len() > 5);
            for (a, b) in of_svg.iter().zip(&of_pdf) {
                assert!(a.iter().zip(b).all(|(a, b)| (a - b).abs() < 0.003), "{a:?} {b:?}");
            }
            let words = words_of_svg(svg);
            let all: String = words.iter().map(|(words, _)| words.as_str()).collect();
            let in_pdf: String = page.words.iter().map(|run| run.words.as_str()).collect();
            assert_eq!(all, in_pdf);
            let length = words.iter().map(|(_, mm)| mm).sum::<f64>();
            let of_pdf = page.words.iter().map(|run| run.length_mm).sum::<f64>();
            // Each of the SVG's is rounded to a micrometre.
            assert!((length - of_pdf).abs() < 0.01 * words.len() as f64, "{length} {of_pdf}");
        }
    }
}

#pragma once

#include "record/book.h"

#include <string>
#include <vector>

namespace strikeoff {

struct Point {
    double x = 0;  ///< feet
    double y = 0;  ///< feet
};

/// What one takeoff section measures. Lengths in feet, area in ft², volume in yd³ = ft³ / 27, all for the section's whole count and negative
/// for a deduction. Runs and piers have no area of their own.
struct SectionMeasure {
    double areaSqft = 0;
    double volumeYards = 0;
    double perimeterFt = 0;      ///< of one piece
    std::vector<Point> outline;  ///< of one piece, in feet, curves as short chords; empty for piers and runs
    std::string fault;           ///< why it cannot be measured, or empty
};

/// Geometry of one section (trapezoid, circle, segment, sector and shoelace formulas; a thickened edge is flat bottom × depth plus half the
/// slope's run × depth). A section that lacks a dimension measures nothing and says so in `fault`.
SectionMeasure measure(const TakeoffSection& section);

/// How contraction joints divide a section: the panels along its two sides and their size in feet.
struct JointPlan {
    int panelsLong = 1;
    int panelsWide = 1;
    double panelLengthFt = 0;
    double panelWidthFt = 0;
    double jointFt = 0;         ///< feet of joint in all
    double leastSpacingFt = 0;  ///< 24 × thickness
    double mostSpacingFt = 0;   ///< 36 × thickness, at most 18 ft
    double depthIn = 0;         ///< a quarter of the thickness, at least 1 in
    std::vector<std::string> remarks;  ///< spacing outside the range, panels longer than 1.5 × their width
};

/// Joints of a rectangle: fewest panels no longer than the section's joint spacing (else 36 × thickness, at most 18 ft) and no longer than
/// 1.5 × their width. Nothing for other shapes.
std::optional<JointPlan> planJoints(const TakeoffSection& section);

/// A job's takeoff added up.
struct Takeoff {
    double areaSqft = 0;
    double volumeYards = 0;
    Rate allowance;
    Yards ordered;  ///< volume × (1 + allowance), rounded up to the order step; zero when nothing is measured
    std::vector<std::string> faults;
};

Takeoff takeoffOf(const Book& book, Id<Job> job);

/// What to order for a volume: × (1 + allowance), rounded up to the step. A millionth of a yard over a step does not cost another one.
Yards orderFor(double volumeYards, Rate allowance, Yards step);

/// Loads of an order: as equal as the step allows, none over the truck, the last the smallest. Empty for nothing.
std::vector<Yards> loadsFor(Yards order, Yards truck, Yards step);

}

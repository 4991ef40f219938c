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
    double perimeterFt = 0;      ///< of one piece; 0 for piers and runs
    std::vector<Point> outline;  ///< of one piece, in feet, curves as short chords; empty for piers and runs
    std::string fault;           ///< why it cannot be measured, or empty
};

/// Geometry of one section (trapezoid, circle, segment, sector and shoelace formulas; a thickened edge is flat bottom × depth plus half the
/// slope's run × depth, where no slope written is none). A section that lacks a dimension measures nothing and says so in `fault`. A
/// triangle's height stands at one end of its base and a trapezoid is drawn symmetrical: base and height, or two sides and their distance,
/// leave that open, and the perimeter with it. A polygon's corners go round either way; an outline that touches or crosses itself is a fault.
SectionMeasure measure(const TakeoffSection& section);

/// How contraction joints divide a section: the panels along its two sides and their size in feet.
struct JointPlan {
    int panelsLong = 1;  ///< along the length
    int panelsWide = 1;  ///< along the width
    double panelLengthFt = 0;
    double panelWidthFt = 0;
    double jointFt = 0;         ///< feet of joint in all, for the section's whole count
    double leastSpacingFt = 0;  ///< 24 × thickness
    double mostSpacingFt = 0;   ///< 36 × thickness, at most 18 ft
    double depthIn = 0;         ///< a quarter of the thickness, at least 1 in
    std::vector<std::string> remarks;  ///< spacing outside the range, panels that would be longer than 1.5 × their width
};

/// Joints of a rectangle: fewest panels no longer than the section's joint spacing (else 36 × thickness, at most 18 ft) and no longer than
/// 1.5 × their width. Nothing for other shapes, for deductions and where a dimension is missing.
std::optional<JointPlan> planJoints(const TakeoffSection& section);

/// A job's takeoff added up.
struct Takeoff {
    double areaSqft = 0;
    double volumeYards = 0;
    Rate allowance;
    Yards ordered;  ///< volume × (1 + allowance), rounded up to the order step; zero when nothing is measured
    std::vector<std::string> faults;  ///< "Walk: the thickness is missing; fill it in"; a section with one is left out of the sums
};

/// The sections of a job, with the allowance of its job type, else the settings'. Deductions of more than they are taken from, and more
/// than 100,000 yd³, are faults, and then nothing is ordered.
Takeoff takeoffOf(const Book& book, Id<Job> job);
/// The same for sections in their order, which need not be in the book yet.
Takeoff takeoffOf(const Book& book, std::optional<Id<JobType>> type, std::span<const TakeoffSection* const> sections);

/// A job's sections in the order of their places.
std::vector<const TakeoffSection*> sectionsOf(const Book& book, Id<Job> job);

/// What to order for a volume: × (1 + allowance), rounded up to the step. A millionth of a yard over a step does not cost another one.
/// Nothing for no volume; DomainError for one that is no number or over 100,000 yd³, and for a step of nothing.
Yards orderFor(double volumeYards, Rate allowance, Yards step);

/// Loads of an order: as equal as the step allows, none over the truck, the last the smallest. Empty for nothing. DomainError for a truck
/// or a step of nothing.
std::vector<Yards> loadsFor(Yards order, Yards truck, Yards step);

}

#pragma once

#include "takeoff/takeoff.h"

namespace strikeoff {

/// The contraction joints of a job's sections together.
struct TakeoffJoints {
    double feet = 0;
    double depthIn = 0;                ///< of the deepest cut; 0 where there are no joints
    std::vector<std::string> remarks;  ///< "Walk: Joints 13' apart are more than 12', the most for this thickness"
};
TakeoffJoints jointsOf(std::span<const TakeoffSection* const> sections);

/// One figure of a takeoff with its unit: "Area" and "400 sq ft".
struct TakeoffFigure {
    std::string label;
    std::string figure;
};
/// Area, concrete as measured, order with its allowance, loads of a truck, joints; those that say nothing are left out.
std::vector<TakeoffFigure> takeoffFigures(const Takeoff& takeoff, const TakeoffJoints& joints, const Settings& settings);

/// "4 panels, each 10' × 10'; 30 ft of joint, 1 in deep"; "one panel, no joint".
std::string panelsText(const JointPlan& plan);

/// A reading a shape is measured by: the field it is kept in and what it is on that shape.
struct ShapeReading {
    std::string_view field;
    std::string_view meaning;
};
/// The readings a shape needs, in the order they are taken; those of other fields are not looked at.
std::span<const ShapeReading> readingsOf(SectionShape shape);

/// Square feet for people: whole ones, or with a tenth under a hundred.
std::string shownArea(double squareFeet);

}

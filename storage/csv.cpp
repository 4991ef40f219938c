#include "csv.h"

// Measures a mesh with CGAL (Debian: libcgal-dev, libeigen3-dev): a program of the reference tests only, not part of the catalogue.
// Reads the corners and triangles that ReferenceProgram.cs writes; prints volume (or "open"), area, hull volume and box volume.
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/measure.h>
#include <CGAL/Polygon_mesh_processing/orient_polygon_soup.h>
#include <CGAL/Polygon_mesh_processing/polygon_soup_to_polygon_mesh.h>
#include <CGAL/Surface_mesh.h>
#include <CGAL/convex_hull_3.h>
#include <CGAL/optimal_bounding_box.h>

#include <array>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <vector>

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using Point = Kernel::Point_3;
using Mesh = CGAL::Surface_mesh<Point>;
namespace PMP = CGAL::Polygon_mesh_processing;

int main(int, char** arguments) {
  std::ifstream file(arguments[1], std::ios::binary);
  std::int32_t corners = 0, triangles = 0;
  file.read(reinterpret_cast<char*>(&corners), 4).read(reinterpret_cast<char*>(&triangles), 4);
  std::vector<float> positions(3 * std::size_t(corners));
  std::vector<std::int32_t> indices(3 * std::size_t(triangles));
  file.read(reinterpret_cast<char*>(positions.data()), 4 * positions.size());
  file.read(reinterpret_cast<char*>(indices.data()), 4 * indices.size());
  if (!file) return 1;

  std::vector<Point> points;
  for (std::size_t i = 0; i < positions.size(); i += 3) points.emplace_back(positions[i], positions[i + 1], positions[i + 2]);
  std::vector<std::vector<std::size_t>> faces;
  double area = 0;
  for (std::size_t i = 0; i < indices.size(); i += 3) {
    faces.push_back({std::size_t(indices[i]), std::size_t(indices[i + 1]), std::size_t(indices[i + 2])});
    area += std::sqrt(CGAL::squared_area(points[indices[i]], points[indices[i + 1]], points[indices[i + 2]]));
  }

  Mesh hull;
  CGAL::convex_hull_3(points.begin(), points.end(), hull);
  std::array<Point, 8> box;
  CGAL::oriented_bounding_box(points, box, CGAL::parameters::use_convex_hull(true));
  const auto side = [&](int a, int b) { return std::sqrt(CGAL::squared_distance(box[a], box[b])); };

  Mesh solid;
  const bool sound = PMP::is_polygon_soup_a_polygon_mesh(faces);
  if (sound) PMP::polygon_soup_to_polygon_mesh(points, faces, solid);
  if (sound && CGAL::is_closed(solid)) std::printf("%.17g", PMP::volume(solid));
  else std::printf("open");
  std::printf(" %.17g %.17g %.17g\n", area, PMP::volume(hull), side(0, 1) * side(0, 3) * side(0, 5));
}

# SPDX-License-Identifier: GPL-3.0-or-later
"""How long the page takes from its start to the first answer, beside `plan`: first_answer.py PROGRAM JOB [rounds].

Both are started anew each time, in turn; the smallest time of either counts.
"""
import http.client
import json
import subprocess
import sys
import time


def planned(program, job):
    began = time.perf_counter()
    subprocess.run([program, "plan", job, "--json"], stdout=subprocess.PIPE, check=True)
    return time.perf_counter() - began


def answered(program, job):
    """From the start to the last byte of the first plan, all of the sheet with it."""
    began = time.perf_counter()
    with subprocess.Popen([program, "page", job, "--port", "0", "--open", "never"], stdout=subprocess.PIPE, text=True) as served:
        _, _, host, key, _ = served.stdout.readline().strip().split("/")
        connection = http.client.HTTPConnection(host)
        connection.request("GET", f"/{key}/job")
        text = json.loads(connection.getresponse().read())["text"]
        connection.request("POST", f"/{key}/plan", json.dumps({"text": text, "width": "wide", "have": {}}),
                           {"Origin": f"http://{host}", "Content-Type": "application/json"})
        answer = connection.getresponse().read()
        took = time.perf_counter() - began
        connection.close()
        served.terminate()
    assert json.loads(answer)["faults"] == []
    return took


def main():
    program, job, *rest = sys.argv[1:]
    rounds = int(rest[0]) if rest else 30
    times = [(planned(program, job), answered(program, job)) for _ in range(rounds)]
    plan, page = (1000 * min(each) for each in zip(*times))
    print(f"plan {plan:.1f} ms, the page's first answer {page:.1f} ms: {page - plan:.1f} ms more")


if __name__ == "__main__":
    main()
